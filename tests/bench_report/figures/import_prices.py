"""A supplier's price list taken in from a workbook, beside bare calamine and one bulk upsert of its rows.

Ours reads, checks each row, holds it against what stands, keeps what was shown and takes it in. Both are
undone when they are done, so that the next run finds the same.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from itertools import islice
from typing import Any

from django.db import transaction

from tests.bench_report.figure import Figure

NOW = datetime(2027, 2, 1, 9, 0, tzinfo=UTC)
HOUSE, NAME = "main_parts", "spring.xlsx"
HEADS = ("Number", "Description", "Net price", "List price", "Unit", "Pack")
AT_ONCE = 2_000


@dataclass(frozen=True, slots=True)
class Listed:
    """The file, and how it is read."""

    content: bytes
    reading: Any


def prepare(rows: int) -> Listed:
    from openpyxl import Workbook

    from quotes.imports.price_list.suggest import suggest

    book = Workbook(write_only=True)
    sheet = book.create_sheet("Prices")
    sheet.append(HEADS)
    for number in range(rows):
        cost = 1 + number * 7 % 40_000 / 100
        name = f"Gasket {number % 971}, size {number % 83}"
        sheet.append((f"GK-{number:06}-{number % 7}", name, cost, round(cost * 1.6, 2), "each", 1))
    out = io.BytesIO()
    book.save(out)
    content = out.getvalue()
    return Listed(content, suggest(content, NAME, None).reading)


def ours(listed: Listed) -> None:
    from catalogue.actions.price_list.checking import check_list
    from catalogue.actions.price_list.handing_in import hand_in, keep_reading
    from catalogue.actions.price_list.taking import take_list
    from quotes.imports.price_list.read import read_price_list

    with transaction.atomic():
        given = read_price_list(listed.content, NAME, listed.reading)
        row = hand_in(supplier=HOUSE, name=NAME, content=listed.content, by=None, now=NOW)
        row = keep_reading(pk=row.pk, reading=listed.reading.model_dump(mode="json"), whole=True)
        row = check_list(pk=row.pk, given=given, on=NOW.date(), now=NOW)
        row = take_list(pk=row.pk, given=given, by=None, on=NOW.date(), now=NOW)
        assert row.state == "in_force", row.counts
        transaction.set_rollback(True)


def bare(listed: Listed) -> None:
    from python_calamine import CalamineWorkbook

    from catalogue.models import ListedPart, PriceList

    with transaction.atomic():
        price_list = PriceList.objects.create(
            supplier_id=HOUSE, name=NAME, sha256="0" * 64, held=listed.content, handed_in_at=NOW
        )
        _, *lines = (
            CalamineWorkbook.from_filelike(io.BytesIO(listed.content)).get_sheet_by_index(0).to_python()
        )
        waiting = iter(lines)
        while some := list(islice(waiting, AT_ONCE)):
            ListedPart.objects.bulk_create(
                [_part(price_list.pk, line) for line in some],
                update_conflicts=True,
                unique_fields=["supplier", "number_key"],
                update_fields=["name", "cost", "list_price", "own_cost", "own_list_price", "price_list"],
            )
        transaction.set_rollback(True)


def _part(price_list: int, line: list[Any]) -> Any:
    from catalogue.models import ListedPart

    number, name, cost, list_price, unit, pack = line
    asked, listed = Decimal(str(cost)), Decimal(str(list_price))
    return ListedPart(
        supplier_id=HOUSE,
        price_list_id=price_list,
        number=number,
        number_key=number,
        name=name,
        unit=unit,
        pack=int(pack),
        currency="USD",
        cost=asked,
        own_cost=asked,
        list_price=listed,
        own_list_price=listed,
    )


IMPORT_PRICES = Figure(
    name="import",
    what="price list taken in",
    bare_is="calamine to rows, rows upserted in bulk",
    unit="rows",
    sizes=(1_000, 10_000, 100_000),
    prepare=prepare,
    ours=ours,
    bare=bare,
    needs="catalogue",
    runs=1,
    goal=2.0,
    most_mb=500,
)
