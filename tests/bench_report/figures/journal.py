"""The journal of a year as its workbook and flat file, beside openpyxl and csv on the same rows and cells."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.db import transaction
from django.db.models import Count
from django.utils import timezone

from tests.bench_report.figure import Figure


@dataclass(slots=True)
class Year:
    """The busiest year, and the cells of its workbook by sheet."""

    first: date
    last: date
    by: Any
    sheets: dict[str, list[list[Any]]] = field(default_factory=dict)


def prepare(quotes: int) -> Year:
    from django.contrib.auth.models import User

    from quotes.models import JournalEntry

    years = (
        JournalEntry.objects.values_list("on__year").annotate(many=Count("pk")).order_by("-many", "on__year")
    )
    busiest = years[0][0]
    year = Year(date(busiest, 1, 1), date(busiest, 12, 31), User.objects.get(username="books"))
    ours(year)
    return year


def ours(year: Year) -> None:
    from python_calamine import CalamineWorkbook

    from quotes.actions.books.batches import finish_batch, start_batch

    with transaction.atomic():
        batch = start_batch(by=year.by, now=timezone.now(), first=year.first, last=year.last)
        batch = finish_batch(batch_id=batch.pk)
        assert batch.state == "ready", batch
        if not year.sheets:
            assert batch.workbook is not None
            content = bytes(batch.workbook.content)
            book = CalamineWorkbook.from_filelike(io.BytesIO(content))
            year.sheets = {name: book.get_sheet_by_name(name).to_python() for name in book.sheet_names}
        transaction.set_rollback(True)


def bare(year: Year) -> bytes:
    from openpyxl import Workbook

    from quotes.models import JournalEntry, JournalLine

    entries = list(JournalEntry.objects.filter(on__range=(year.first, year.last)).values_list())
    lines = list(JournalLine.objects.filter(entry__on__range=(year.first, year.last)).values_list())
    assert entries
    assert lines
    book = Workbook(write_only=True)
    for name, rows in year.sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    out, flat = io.BytesIO(), io.StringIO()
    book.save(out)
    csv.writer(flat).writerows(lines)
    return out.getvalue()


JOURNAL = Figure(
    name="journal",
    what="journal of a year, workbook and flat file",
    bare_is="entries and lines read whole, the same cells by openpyxl and csv",
    unit="quotes",
    sizes=(100, 1_000, 10_000),
    prepare=prepare,
    ours=ours,
    bare=bare,
    needs="years",
    runs=1,
)
