"""Issuing a hybrid invoice, beside bare WeasyPrint on the same page.

Ours is all of it: words, template, payment code, rules, XML, schema, page, metadata, attachment. The bare way
is a plain PDF without XML, with fonts unpacked already.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tests.bench_report.figure import Figure
from tests.bench_report.figures.printing import bare_pdf


@dataclass(frozen=True, slots=True)
class Page:
    """An invoice's sheet, and the page that it makes."""

    sheet: Any
    html: str
    style: str


def prepare(lines: int) -> Page:
    from quotes.documents.invoice import invoice_page
    from tests.documents.invoice.sheets import forty_lines

    sheet = forty_lines()
    assert len(sheet.lines) == lines
    return Page(sheet, *invoice_page(sheet))


def ours(page: Page) -> bytes:
    from quotes.documents.invoice import invoice_files

    return invoice_files(page.sheet).pdf


def bare(page: Page) -> bytes:
    from quotes.documents.pdf import own_fonts

    return bare_pdf(page.html, page.style, url_fetcher=own_fonts())


INVOICE = Figure(
    name="invoice",
    what="hybrid invoice",
    bare_is="WeasyPrint on the same page, fonts at hand",
    unit="lines",
    sizes=(40,),
    prepare=prepare,
    ours=ours,
    bare=bare,
    goal=1.3,
    by_processor=True,
)
