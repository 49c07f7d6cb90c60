"""A purchase order on paper and as a file that the supplier's system can read."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench.parts.order_sheet import OrderSheet
from quotes.calc.bench.parts.pieces import plain
from quotes.calc.sheet.issued_values import Party
from quotes.documents.books.flat_file import ENCODING, RUNS
from quotes.documents.letterhead import LANGUAGE, PaperHeading, paper_frame, paper_style
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in
from quotes.documents.words import long_day, money

COLUMNS = (
    "Order",
    "Position",
    "Part number",
    "Description",
    "Size",
    "Quantity",
    "Unit",
    "Cost of one",
    "Net",
    "Currency",
    "Needed on",
    "Mark",
)


def order_pdf(sheet: OrderSheet) -> bytes:
    """The order as it goes to the supplier."""
    html = paper_in(sheet.language, "documents/bench/order.html", lambda: _context(sheet))
    return printed(html, paper_style(sheet.paper))


def _context(sheet: OrderSheet) -> dict[str, Any]:
    made = long_day(sheet.ordered_on, LANGUAGE)
    return paper_frame(
        PaperHeading(sheet.workshop, Party(name=sheet.supplier)),
        sheet.ordered_on,
        title=say("Purchase order {number}", number=sheet.number),
        foot=say(
            "{workshop} · Purchase order {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        strip=(
            (say("Purchase order"), sheet.number),
            (say("Dated"), made),
            (say("Supplier"), sheet.supplier),
            (
                say("Needed by"),
                long_day(sheet.needed_on, LANGUAGE) if sheet.needed_on else say("as soon as can be"),
            ),
        ),
    ) | {
        "sheet": sheet,
        "one_mark": _one_mark(sheet),
        "rows": [
            (row, plain(row.quantity), _money(sheet, row.unit_cost), _money(sheet, row.net))
            for row in sheet.articles
        ],
        "net": _money(sheet, sheet.net),
    }


def _one_mark(sheet: OrderSheet) -> str:
    """The mark of every article where all have the same: said once, the order takes a page less."""
    marks = {row.marks for row in sheet.articles}
    return ", ".join(marks.pop()) if len(marks) == 1 else ""


def _money(sheet: OrderSheet, amount: Decimal) -> str:
    return money(amount, sheet.currency, sheet.decimals, LANGUAGE)


def order_csv(sheet: OrderSheet) -> bytes:
    """One line for each article; a text that a spreadsheet would run gets a ' before it."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for row in sheet.articles:
        texts = (row.part_number, row.description, row.size)
        writer.writerow(
            [
                sheet.number,
                row.position,
                *map(inert, texts),
                f"{row.quantity.normalize():f}" if row.quantity else "0",
                inert(row.unit),
                format(row.unit_cost, "f"),
                format(row.net, "f"),
                sheet.currency,
                sheet.needed_on.isoformat() if sheet.needed_on else "",
                inert("; ".join(row.marks)),
            ]
        )
    return out.getvalue().encode(ENCODING)


def inert(text: str) -> str:
    """The text as a spreadsheet shows it and never runs it.

    >>> inert("=1+1"), inert(" @x"), inert("S-VSP")
    ("'=1+1", "' @x", 'S-VSP')
    """
    clean = text.replace("\x00", "")
    return f"'{clean}" if clean.lstrip(" \n").startswith(RUNS) or clean.startswith(RUNS) else clean
