"""The addresses of the bench's pages, gathered."""

from __future__ import annotations

from types import ModuleType

from quotes.views.bench import customer_extra, extra_work, intake, jobs

AREAS: tuple[ModuleType, ...] = (jobs, intake, extra_work, customer_extra)

urlpatterns = [address for area in AREAS for address in area.urlpatterns]
