"""Another article in the place of one that can't be had."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from uuid import UUID, uuid5

from django.conf import settings
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone, translation

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.bench.order_writing import NewLine, write_order
from quotes.actions.bench.parts_refused import ReplacedAlready, WaitsForYes
from quotes.actions.bench.receipts import PiecesTold, tell_of_pieces
from quotes.actions.books.extra_work import About, offer_extra_work
from quotes.actions.saving import save_checked
from quotes.calc.bench.parts.substitute import asks_for_yes
from quotes.calc.bench.said import exact
from quotes.calc.invoice.draft import DraftLine
from quotes.models import ExtraWorkState, OrderLine, PurchaseOrder, Substitute, Workshop
from quotes.queries.bench.parts.substitutes import accepted_line, supplier_names
from quotes.queries.bench.parts.wanted import lines_of
from quotes.queries.workshop import taxability


@dataclass(frozen=True, slots=True)
class Instead:
    """The other article: cost to us and price to the customer of one, before tax."""

    part_number: str
    description: str
    supplier: str
    unit_cost: Decimal
    unit_price: Decimal
    why: str
    grade: str = ""
    expected_on: date | None = None
    life_note: str = ""


@transaction.atomic
def propose_substitute(
    *, line: OrderLine, instead: Instead, key: UUID, by: User, now: datetime
) -> Substitute:
    """Keep a substitute for what is still to come of a line; ask the customer where it matters to him.

    Where price, quality or life changes an extra-work offer is made that takes the old article off and puts
    the new one on. The same key again gives the row that was made. ValidationError by field.
    """
    if made := Substitute.objects.filter(key=key).first():
        return made
    ((row, stands),) = lines_of(OrderLine.objects.filter(pk=line.pk))
    names = supplier_names()
    _refuse(instead, names, stands.to_come)
    accepted = accepted_line(row)
    reasons = asks_for_yes(
        price=accepted.unit_price if accepted else None,
        new_price=instead.unit_price,
        grade=row.grade,
        new_grade=instead.grade or row.grade,
        life_note=instead.life_note,
    )
    substitute = _of(row, instead)
    substitute.key, substitute.by, substitute.at = key, by, now
    substitute.needs_yes = bool(reasons) and row.build is not None
    save_checked(substitute)
    if substitute.needs_yes:
        assert row.build is not None
        words, risk = _offered(row, substitute)
        substitute.extra_work = offer_extra_work(
            build=row.build,
            words=words,
            lines=_lines(row, accepted, substitute, stands.to_come),
            risk_if_declined=risk,
            about=About(touches=reasons, components=(row.component,) if row.component else ()),
            by=by,
            now=now,
        )
        substitute.save(update_fields=["extra_work"])
    return substitute


def _of(line: OrderLine, instead: Instead) -> Substitute:
    """The row, not saved yet; without a grade of its own it has that of what it replaces."""
    return Substitute(
        line=line,
        part_number=instead.part_number.strip(),
        description=instead.description.strip(),
        supplier=instead.supplier,
        grade=instead.grade or line.grade,
        unit_cost=instead.unit_cost,
        unit_price=instead.unit_price,
        expected_on=instead.expected_on,
        why=instead.why.strip(),
        life_note=instead.life_note.strip(),
    )


def _offered(row: OrderLine, substitute: Substitute) -> tuple[str, str]:
    """What is offered, and what a no means, as the customer reads it."""
    assert row.build is not None
    with translation.override(row.build.quote.customer.reads):
        words = say(
            "{new} in the place of {old}: {why}",
            new=substitute.description,
            old=row.description,
            why=substitute.why,
        )
        return words[:300], say("We wait for the part that was agreed, and the engine with it.")


def _refuse(instead: Instead, suppliers: dict[str, str], to_come: Decimal) -> None:
    faults = {}
    for name, said in (
        ("part_number", instead.part_number),
        ("description", instead.description),
        ("why", instead.why),
    ):
        if not said.strip():
            faults[name] = say("Nothing is given.")
    if instead.supplier not in suppliers:
        faults["supplier"] = say(
            "{supplier} is none of the suppliers of the catalogue.", supplier=repr(instead.supplier)
        )
    for name, amount in (("unit_cost", instead.unit_cost), ("unit_price", instead.unit_price)):
        if amount < ZERO:
            faults[name] = say("{amount} is below nought.", amount=exact(amount))
    if not to_come:
        faults["part_number"] = say("Nothing of this line is still to come, so nothing needs replacing.")
    if faults:
        raise ValidationError(faults)


def _lines(
    line: OrderLine, accepted: DraftLine | None, substitute: Substitute, quantity: Decimal
) -> Sequence[DraftLine]:
    """The old article off at the price it was accepted at, the new one on at its own."""
    code = accepted.tax_code if accepted else taxability(Workshop.objects.get_or_default())["part"]
    old = DraftLine(
        kind="part",
        description=(accepted.description if accepted else line.description)[:200],
        quantity=-quantity,
        unit=line.unit,
        unit_price=accepted.unit_price if accepted else ZERO,
        tax_code=code,
        component=line.component or None,
    )
    new = old.model_copy(
        update={
            "description": substitute.description[:200],
            "quantity": quantity,
            "unit_price": substitute.unit_price,
        }
    )
    return (old, new) if accepted else (new,)


@transaction.atomic
def order_substitute(*, substitute: Substitute, by: User, now: datetime) -> PurchaseOrder:
    """Cancel what is still to come of the old line and order the substitute.

    WaitsForYes while the customer has not agreed to it; ReplacedAlready where it was ordered or dropped.
    """
    row = (
        Substitute.objects.select_for_update(of=("self",))
        .select_related("extra_work__build__quote")
        .get(pk=substitute.pk)
    )
    extra = row.extra_work
    if row.needs_yes and (extra is None or extra.state != ExtraWorkState.ACCEPTED):
        raise WaitsForYes(
            extra.number if extra else "", extra.get_state_display() if extra else say("not asked")
        )
    ((line, stands),) = lines_of(OrderLine.objects.filter(pk=row.line_id))
    if row.dropped_at or not stands.to_come:
        raise ReplacedAlready(row.description)
    quantity, on = stands.to_come, timezone.localdate(now)
    note = say("{part} in its place: {why}", part=row.description, why=row.why)
    gone = PiecesTold("cancelled", quantity, on, note=note[:300])
    tell_of_pieces(line=line, told=gone, key=uuid5(row.key, "cancelled"), by=by, now=now)
    supplier = supplier_names().get(row.supplier, row.supplier)
    lines = [_to_order(row, line, quantity)]
    return write_order(row.supplier, supplier, lines, line.order.needed_on, _note(line), by, now)


def _to_order(row: Substitute, line: OrderLine, quantity: Decimal) -> NewLine:
    """The line of the new order; where the customer was asked, what he agreed to pays for it."""
    extra = row.extra_work
    return NewLine(
        build=line.build,
        part_number=row.part_number,
        description=row.description,
        unit=line.unit,
        quantity=quantity,
        unit_cost=row.unit_cost,
        expected_on=row.expected_on,
        slow_on=row.expected_on,
        component=line.component,
        grade=row.grade,
        size=line.size,
        quoted_unit_cost=row.unit_cost if extra else line.quoted_unit_cost,
        line_key=f"work:{extra.index}:2" if extra and accepted_line(line) else line.line_key,
        reading_id=line.reading_id,
        replaces=line,
    )


def _note(line: OrderLine) -> str:
    """What the supplier reads, so in the language of the site."""
    with translation.override(settings.LANGUAGE_CODE):
        return say(
            "In the place of position {position} of our order {number}.",
            position=line.position,
            number=line.order.number,
        )


@transaction.atomic
def drop_substitute(*, substitute: Substitute, now: datetime) -> Substitute:
    """Say that it is not taken; what was ordered first is waited for."""
    row = Substitute.objects.select_for_update(of=("self",)).get(pk=substitute.pk)
    if row.dropped_at is None:
        row.dropped_at = now
        row.save(update_fields=["dropped_at"])
    return row
