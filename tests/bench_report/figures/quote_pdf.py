"""A quote on paper, beside bare WeasyPrint on the same page, fonts at hand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from unittest.mock import patch

from tests.bench_report.figure import Figure
from tests.bench_report.figures.printing import bare_pdf


@dataclass(frozen=True, slots=True)
class Page:
    """A quote's sheet, and the page that it makes."""

    sheet: Any
    html: str
    style: str


def prepare(options: int) -> Page:
    """Three options of a tired four, as the sums have worked them out."""
    from quotes.documents import pdf
    from tests.documents.worked_sheet import worked_four

    sheet, seen = worked_four(), list[tuple[str, str]]()
    assert len(sheet.comparison.options) == options

    def see(html: str, style: str) -> bytes:
        seen.append((html, style + pdf.page_numbers(html)))
        return b""

    with patch.object(pdf, "printed", see):
        pdf.quote_pdf(sheet)
    return Page(sheet, *seen[0])


def ours(page: Page) -> bytes:
    from quotes.documents.pdf import quote_pdf

    return quote_pdf(page.sheet)


def bare(page: Page) -> bytes:
    from quotes.documents.pdf import own_fonts

    return bare_pdf(page.html, page.style, url_fetcher=own_fonts())


QUOTE_PDF = Figure(
    name="pdf",
    what="PDF of a quote",
    bare_is="WeasyPrint on the same page, fonts at hand",
    unit="options",
    sizes=(3,),
    prepare=prepare,
    ours=ours,
    bare=bare,
    runs=3,
    goal=1.3,
    by_processor=True,
)
