"""The addresses of the bench's pages, gathered."""

from __future__ import annotations

from types import ModuleType

from quotes.views.bench import customer_extra, extra_work, jobs

AREAS: tuple[ModuleType, ...] = (jobs, extra_work, customer_extra)

urlpatterns = [address for area in AREAS for address in area.urlpatterns]
