"""What became of ordered pieces: received, damaged, wrong, on back-order, returned, cancelled."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from uuid import UUID, uuid5

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.actions.saving import save_checked
from quotes.calc.bench.parts.pieces import EventKind, NotSoMany, moves
from quotes.calc.bench.said import exact
from quotes.models import OrderEvent, OrderLine, PurchaseOrder
from quotes.queries.bench.parts.wanted import lines_of

NEEDS_WORDS = {
    "damaged": to_say("Nothing is given: say what is wrong with it, for the supplier will ask."),
    "wrong": to_say("Nothing is given: say what came instead."),
    "cancelled": to_say("Nothing is given: say why."),
}


@dataclass(frozen=True, slots=True)
class PiecesTold:
    """What became of so many pieces. Below nought takes back a slip; `unit_cost` where the cost changed."""

    kind: EventKind
    quantity: Decimal
    on: date
    promised_on: date | None = None
    unit_cost: Decimal | None = None
    batch: str = ""
    note: str = ""


@transaction.atomic
def tell_of_pieces(*, line: OrderLine, told: PiecesTold, key: UUID, by: User, now: datetime) -> OrderEvent:
    """Write down what became of pieces of a line; the same key again gives what was written.

    ValidationError by field: more than there are, a day before the order or to come, a back-order without
    its new day, and what needs words and has none.
    """
    event = _tell(line, told, key, by, now)
    _mark_done(line.order_id, now)
    return event


def _tell(line: OrderLine, told: PiecesTold, key: UUID, by: User, now: datetime) -> OrderEvent:
    list(OrderLine.objects.select_for_update(of=("self",)).filter(pk=line.pk).values_list("pk"))
    if made := OrderEvent.objects.filter(key=key).first():
        return made
    ((row, stands),) = lines_of(OrderLine.objects.filter(pk=line.pk))
    _refuse(row, told, timezone.localdate(now))
    try:
        written = moves(stands, told.kind, told.quantity)
    except NotSoMany as wrong:
        raise ValidationError({"quantity": str(wrong)}) from None
    first, *others = (_event(row, told, kind, quantity, by, now) for kind, quantity in written)
    first.key = key
    for number, other in enumerate(others):
        # Taken off where the pieces were; the second press finds the first row.
        other.key, other.promised_on, other.unit_cost = uuid5(key, str(number)), None, None
    for event in (first, *others):
        save_checked(event)
    return first


@transaction.atomic
def take_in_all(*, order: PurchaseOrder, on: date, key: UUID, by: User, now: datetime) -> int:
    """Everything that is still to come of an order is here and good; how many lines that were."""
    lines = [(line, stands) for line, stands in lines_of(order.lines.all()) if stands.to_come]
    for line, stands in lines:
        told = PiecesTold("received", stands.to_come, on)
        _tell(line, told, uuid5(key, f"line {line.pk}"), by, now)
    _mark_done(order.pk, now)
    return len(lines)


def _mark_done(order: int, now: datetime) -> None:
    """Say on the order itself whether anything of it is waited for, so that nobody has to read old ones."""
    # Two that take in two lines at once come one after the other here.
    row = PurchaseOrder.objects.select_for_update(of=("self",)).only("done_at").get(pk=order)
    done = all(stands.done for _, stands in lines_of(OrderLine.objects.filter(order=order)))
    if done != (row.done_at is not None):
        row.done_at = now if done else None
        row.save(update_fields=["done_at"])


def _event(
    line: OrderLine, told: PiecesTold, kind: EventKind, quantity: Decimal, by: User, now: datetime
) -> OrderEvent:
    return OrderEvent(
        line=line,
        kind=kind,
        quantity=quantity,
        on=told.on,
        promised_on=told.promised_on if told.kind == "back_ordered" else None,
        unit_cost=told.unit_cost,
        batch=told.batch.strip(),
        note=told.note.strip(),
        at=now,
        by=by,
    )


def _refuse(line: OrderLine, told: PiecesTold, today: date) -> None:
    faults = {}
    if not line.order.ordered_on <= told.on <= today:
        faults["on"] = say(
            "{on} is not between {ordered}, when it was ordered, and {today}.",
            on=told.on,
            ordered=line.order.ordered_on,
            today=today,
        )
    if told.kind == "back_ordered" and told.quantity > ZERO:
        if told.promised_on is None:
            faults["promised_on"] = say(
                "Nothing is given: a back-order needs the day the supplier now promises."
            )
        elif told.promised_on <= told.on:
            faults["promised_on"] = say(
                "{promised} is not after {on}: give the new day.", promised=told.promised_on, on=told.on
            )
    if told.unit_cost is not None and told.unit_cost < ZERO:
        faults["unit_cost"] = say("{cost} is below nought.", cost=exact(told.unit_cost))
    if told.kind in NEEDS_WORDS and told.quantity > ZERO and not told.note.strip():
        faults["note"] = say(NEEDS_WORDS[told.kind])
    if faults:
        raise ValidationError(faults)
