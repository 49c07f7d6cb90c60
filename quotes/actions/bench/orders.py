"""Purchase orders: drawn up from the pick lists of one or more builds, numbered, frozen and sent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import cast

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.bench.order_writing import FOR_STOCK, NewLine, arrives, write_order
from quotes.actions.bench.parts_refused import NothingToOrder, NotMeasured, TwoSuppliers
from quotes.actions.books.calling_off import refuse_called_off
from quotes.calc.bench.parts.needs import Need
from quotes.calc.bench.parts.packing import Article, Offered, Want, by_supplier
from quotes.models import Acceptance, PurchaseOrder, Workshop
from quotes.queries.bench.parts.wanted import parts_of, with_sheet
from quotes.queries.workshop import closed_days


@dataclass(frozen=True, slots=True)
class Asked:
    """One article of one build that is to be ordered, as ticked; `size` where a reading chooses it."""

    build: int
    key: str
    component: str
    size: str = ""


@transaction.atomic
def send_order(*, asked: Sequence[Asked], by: User, now: datetime, note: str = "") -> PurchaseOrder:
    """Order what is still to be ordered of the ticked articles, merged and in packs, of one supplier.

    What a pack holds beyond the wants is a line of its own that goes to stock. A second press finds nothing
    left: NothingToOrder. NotMeasured names the reading that a part waits for; TwoSuppliers; CalledOffAlready;
    ValidationError for a part that a reading sizes and that was given no size.
    """
    on = timezone.localdate(now)
    keys = {one.build for one in asked}
    locked = Acceptance.objects.select_for_update(of=("self",)).filter(pk__in=keys).order_by("pk")
    for build in locked:
        refuse_called_off(build)
    builds = {row.pk: row for row in with_sheet(Acceptance.objects.filter(pk__in=keys))}
    wanted = _wanted(asked, list(builds.values()), on)
    _refuse(wanted)
    closed = closed_days(Workshop.objects.get_or_default(), on)
    wants = [
        Want(
            one.build, row.need.pick.key, row.offer_number, row.need.to_order, row.offered, row.need.needed_on
        )
        for one, row in wanted
    ]
    merged = by_supplier(wants, closed)
    if len(merged) > 1:
        raise TwoSuppliers([one.supplier_name for one in merged])
    (of,) = merged
    lines = [_line(one, need, builds[one.build], on, closed) for one, need in wanted]
    lines += [_spare(article, wanted, on, closed) for article in of.articles if article.spare]
    days = [want.needed_on for want in wants if want.needed_on]
    return write_order(of.supplier, of.supplier_name, lines, min(days, default=None), note, by, now)


@dataclass(frozen=True, slots=True)
class _Wanted:
    need: Need
    offered: Offered
    offer_number: str


def _wanted(asked: Sequence[Asked], builds: Sequence[Acceptance], on: date) -> list[tuple[Asked, _Wanted]]:
    """Each ticked article with what is still to be ordered of it."""
    parts = parts_of(builds, on)
    known = {
        (build, need.pick.key, need.pick.component): need
        for build, found in parts.items()
        for need in found.needs
    }
    wanted = []
    for one in dict.fromkeys(asked):
        need = known.get((one.build, one.key, one.component))
        if need and need.to_order and need.offer and need.pick.part:
            wanted.append((one, _Wanted(need, need.offer, need.pick.part.number)))
    if not wanted:
        raise NothingToOrder
    return wanted


def _refuse(wanted: Sequence[tuple[Asked, _Wanted]]) -> None:
    waiting = [row.need for _, row in wanted if row.need.waits]
    if waiting:
        raise NotMeasured([need.waits.sentence(need.pick.description) for need in waiting if need.waits])
    unsized = [row.need.pick.description for one, row in wanted if row.need.sized_by and not one.size.strip()]
    if unsized:
        raise ValidationError(
            {
                "size": say(
                    "{part}: nothing is given. Write the size or sizes that the reading calls for.",
                    part=unsized[0],
                )
            }
        )


def _line(one: Asked, row: _Wanted, build: Acceptance, on: date, closed: frozenset[date]) -> NewLine:
    pick, part = row.need.pick, row.need.pick.part
    assert part is not None
    expected, slow = arrives(row.offered, on, closed)
    return NewLine(
        build=build,
        part_number=part.number,
        description=pick.description,
        unit=part.unit,
        quantity=row.need.to_order,
        unit_cost=row.offered.cost,
        expected_on=expected,
        slow_on=slow,
        component=pick.component,
        grade=part.grade,
        size=one.size.strip(),
        quoted_unit_cost=pick.quoted_cost,
        line_key=pick.key,
        reading_id=row.need.sized_by,
    )


def _spare(
    article: Article, wanted: Sequence[tuple[Asked, _Wanted]], on: date, closed: frozenset[date]
) -> NewLine:
    """The pieces of a pack that nobody asked for."""
    one, row = next(pair for pair in wanted if pair[1].offer_number == article.part_number)
    made = _line(one, row, cast(Acceptance, None), on, closed)
    return replace(
        made,
        quantity=article.spare,
        line_key=FOR_STOCK,
        quoted_unit_cost=None,
        reading_id=None,
    )
