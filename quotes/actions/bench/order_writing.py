"""Writing a purchase order: its number, its frozen sheet and its lines."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields
from datetime import date, datetime
from decimal import Decimal
from typing import Literal, cast

from django.conf import settings
from django.contrib.auth.models import User
from django.utils import timezone

from catalogue.calc.money import round_half_up
from quotes.actions.audit.bulk import add_all
from quotes.actions.numbers import next_number
from quotes.actions.saving import checked, save_checked
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.bench.parts.order_sheet import OrderedArticle, OrderSheet
from quotes.calc.bench.parts.packing import Offered
from quotes.calc.dates.schedule import add_working_days
from quotes.models import Acceptance, OrderLine, PurchaseOrder, Workshop
from quotes.queries.sheets import workshop_party
from quotes.queries.workshop import currency_decimals

SERIES = "P"
FOR_STOCK = "stock"
"""The key of a line that no build pays for: the pieces of a pack beyond the wants."""


@dataclass(frozen=True, slots=True)
class NewLine:
    """An order line before it has its order."""

    build: Acceptance | None
    part_number: str
    description: str
    unit: str
    quantity: Decimal
    unit_cost: Decimal
    expected_on: date | None
    slow_on: date | None
    component: str = ""
    grade: str = ""
    size: str = ""
    quoted_unit_cost: Decimal | None = None
    line_key: str = ""
    reading_id: int | None = None
    replaces: OrderLine | None = None


def arrives(offer: Offered, on: date, closed: frozenset[date]) -> tuple[date, date]:
    """The days by which an order of today is here one time in two, and nine in ten."""
    days = (math.ceil(offer.lead.typical_days), math.ceil(offer.lead.slow_days))
    return add_working_days(on, days[0], closed), add_working_days(on, days[1], closed)


def write_order(
    supplier: str,
    supplier_name: str,
    lines: Sequence[NewLine],
    needed_on: date | None,
    note: str,
    by: User,
    now: datetime,
) -> PurchaseOrder:
    """Number, freeze and keep an order. Runs inside the caller's transaction."""
    on = timezone.localdate(now)
    number = next_number(kind=SERIES, year=on.year)
    sheet = _sheet(number, supplier_name, lines, needed_on, note.strip(), on)
    order = save_checked(
        PurchaseOrder(
            number=number,
            supplier=supplier,
            supplier_name=supplier_name,
            needed_on=needed_on,
            sheet=sheet.model_dump(mode="json"),
            sheet_sha256=fingerprint(sheet),
            ordered_on=on,
            ordered_at=now,
            ordered_by=by,
        )
    )
    names = [field.name for field in fields(NewLine)]
    rows = [
        checked(OrderLine(order=order, position=place, **{name: getattr(line, name) for name in names}))
        for place, line in enumerate(lines, start=1)
    ]
    add_all(OrderLine, rows)
    return order


def _sheet(
    number: str,
    supplier: str,
    lines: Sequence[NewLine],
    needed_on: date | None,
    note: str,
    on: date,
) -> OrderSheet:
    workshop = Workshop.objects.get_or_default()
    decimals = currency_decimals(workshop.currency)
    articles = tuple(_article(place, line, decimals) for place, line in enumerate(lines, start=1))
    return OrderSheet(
        number=number,
        workshop=workshop_party(workshop),
        supplier=supplier,
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=settings.LANGUAGE_CODE,
        currency=workshop.currency,
        decimals=decimals,
        ordered_on=on,
        needed_on=needed_on,
        articles=articles,
        net=sum((row.net for row in articles), Decimal(0)),
        note=note,
    )


def _article(place: int, line: NewLine, decimals: int) -> OrderedArticle:
    return OrderedArticle(
        position=place,
        part_number=line.part_number,
        description=line.description,
        size=line.size,
        quantity=line.quantity,
        unit=line.unit,
        unit_cost=line.unit_cost,
        net=round_half_up(line.quantity * line.unit_cost, decimals),
        marks=(_mark(line.build) if line.build else FOR_STOCK,),
    )


def _mark(build: Acceptance) -> str:
    """The job's number where the engine is here, else the quote's: what the parcel is marked with."""
    job = getattr(build.quote, "job", None)
    return str(job.number if job else build.quote.number)
