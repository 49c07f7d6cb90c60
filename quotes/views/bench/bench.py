"""The addresses of the bench's pages, gathered."""

from __future__ import annotations

from types import ModuleType

from quotes.views.bench import jobs

AREAS: tuple[ModuleType, ...] = (jobs,)

urlpatterns = [address for area in AREAS for address in area.urlpatterns]
