"""The addresses of the bench's pages, gathered."""

from __future__ import annotations

from types import ModuleType

from quotes.views.bench import clock, customer_extra, extra_work, intake, jobs, works_orders

AREAS: tuple[ModuleType, ...] = (
    jobs,
    intake,
    works_orders,
    extra_work,
    customer_extra,
    clock,
)

urlpatterns = [address for area in AREAS for address in area.urlpatterns]
