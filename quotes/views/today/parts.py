"""The day sheet's sentences about parts: orders to send, deliveries that are late, cores to send back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import islice

from catalogue.calc.said import say
from quotes.calc.bench.said import day
from quotes.queries.bench.parts.drafts import drafts_due
from quotes.queries.bench.parts.orders import cores_open, orders_late
from quotes.queries.today import MOST
from quotes.views.today.item import DESK, Item

CORE_SOON = timedelta(days=7)
"""A core is packed up in its last week."""


def for_us(on: date) -> tuple[list[Item], ...]:
    """What must be ordered today or is late, deliveries that did not come, and cores that are due."""
    return [*_to_order(on)], [*_late(on)], [*islice(_cores(on), MOST)]


def _to_order(on: date) -> Iterator[Item]:
    for draft in drafts_due(on):
        what = say("Order parts from {supplier} today", supplier=draft.name)
        if draft.order_by and draft.order_by < on:
            due = day(draft.order_by)
            what = say("Order parts from {supplier}: it was due {day}", supplier=draft.name, day=due)
        yield Item(say(DESK), what, "order-new", must=True)


def _late(on: date) -> Iterator[Item]:
    for order in orders_late(on, MOST):
        what = say(
            "Ask {supplier} where {number} is: it has not come in full",
            supplier=order.supplier_name,
            number=order.number,
        )
        yield Item(say(DESK), what, "order", order.pk, since=order.ordered_at)


def _cores(on: date) -> Iterator[Item]:
    for core in cores_open():
        if core.state == "here" and core.due_back_on <= on + CORE_SOON:
            due = day(core.due_back_on)
            what = say("Send back the core {part}, due {day}", part=core.description, day=due)
            yield Item(say(DESK), what, "cores", must=core.due_back_on <= on)
