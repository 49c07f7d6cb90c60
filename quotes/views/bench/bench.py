"""The addresses of the bench's pages, gathered."""

from __future__ import annotations

from types import ModuleType

from quotes.views.bench import (
    advice,
    after,
    clock,
    customer_extra,
    customer_findings,
    customer_receipt,
    customer_service,
    extra_work,
    findings,
    intake,
    intake_photos,
    jobs,
    leave,
    lifed_parts,
    limits,
    logbook,
    orders,
    parts,
    photos,
    record,
    record_entries,
    record_photos,
    release,
    substitutes,
    teardown,
    teardown_take,
    test_runs,
    works_orders,
)

AREAS: tuple[ModuleType, ...] = (
    jobs,
    intake,
    intake_photos,
    leave,
    teardown,
    teardown_take,
    findings,
    limits,
    photos,
    works_orders,
    advice,
    parts,
    orders,
    substitutes,
    extra_work,
    customer_extra,
    customer_findings,
    customer_receipt,
    clock,
    record,
    record_photos,
    record_entries,
    test_runs,
    release,
    after,
    customer_service,
    logbook,
    lifed_parts,
)

urlpatterns = [address for area in AREAS for address in area.urlpatterns]
