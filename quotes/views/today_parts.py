"""The day sheet's sentences about parts: orders to send, deliveries that are late, cores to send back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from quotes.calc.bench.said import day
from quotes.queries.bench.orders import cores_open, drafts, orders_listed
from quotes.views.today_items import Item

CORE_SOON = timedelta(days=7)
"""A core is packed up in its last week."""


def for_us(on: date) -> list[Item]:
    """What must be ordered today or is late, deliveries that did not come, and cores that are due."""
    return [*_to_order(on), *_late(on), *_cores(on)]


def _to_order(on: date) -> Iterator[Item]:
    for draft in drafts(on):
        if draft.order_by and draft.order_by <= on:
            late = f": it was due {day(draft.order_by)}" if draft.order_by < on else " today"
            yield Item("Desk", f"Order parts from {draft.name}{late}", "order-new", must=True)


def _late(on: date) -> Iterator[Item]:
    for one in orders_listed(on):
        if one.late(on):
            what = f"Ask {one.order.supplier_name} where {one.order.number} is: it has not come in full"
            yield Item("Desk", what, "order", one.order.pk, since=one.order.ordered_at)


def _cores(on: date) -> Iterator[Item]:
    for core in cores_open():
        if core.state == "here" and core.due_back_on <= on + CORE_SOON:
            what = f"Send back the core {core.description}, due {day(core.due_back_on)}"
            yield Item("Desk", what, "cores", must=core.due_back_on <= on)
