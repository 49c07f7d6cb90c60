"""Quote and receipt on paper: a finished sheet in, PDF bytes out, the same bytes every time."""

from __future__ import annotations

import hashlib
import io
import re
from base64 import b64decode, b64encode
from functools import cache
from pathlib import Path
from typing import Any, Literal

from django.template.loader import render_to_string
from django.utils import translation

from catalogue.calc.said import say
from quotes.calc.money.accepted import AcceptedValue
from quotes.calc.sheet.issued_values import Sheet
from quotes.documents.paper import quote_context, receipt_context
from quotes.documents.speech import paper_in

FONTS = Path(__file__).resolve().parent.parent / "static" / "quotes" / "fonts"
OWN_PHOTO = "data:image/jpeg;base64,"
"""How a photo stands in a document: its own bytes, which were encoded anew when it was kept."""
_LANGUAGE = re.compile(r'<html lang="([\w-]+)"')
_VARIANT = "pdf/ua-1"
"""Tagged, with title and language: what a screen reader needs of a PDF."""


def photo_address(jpeg: bytes) -> str:
    """The address of a photo for an `img` of a document."""
    return OWN_PHOTO + b64encode(jpeg).decode()


class LinkRefused(Exception):
    """A document pointed at something outside our own fonts."""


def quote_pdf(sheet: Sheet) -> bytes:
    """The quote: comparison first, then numbers, reasons, each option's lines, terms, the place to sign."""
    html = paper_in(sheet.heading.language, "documents/quote.html", lambda: quote_context(sheet))
    return _printed(html, sheet.heading.paper)


def receipt_pdf(sheet: Sheet, accepted: AcceptedValue) -> bytes:
    """The receipt of a yes: who, when, to what, up to what sum, and what was shown."""
    html = paper_in(
        sheet.heading.language, "documents/receipt.html", lambda: receipt_context(sheet, accepted)
    )
    return _printed(html, sheet.heading.paper)


def _printed(html: str, paper: Literal["A4", "Letter"]) -> bytes:
    style = f"@page {{ size: {paper}; }}\n{render_to_string('documents/paper.css')}"
    return printed(html, style)


def printed(html: str, style: str) -> bytes:
    """HTML and its style as a tagged PDF. LinkRefused where they point at anything but our own fonts."""
    # A second of import, which no page should wait for that draws no PDF.
    from weasyprint import CSS, HTML  # type: ignore[import-untyped]
    from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]
    from weasyprint.urls import FatalURLFetchingError  # type: ignore[import-untyped]

    fetcher, fonts, base = own_fonts(), FontConfiguration(), FONTS.as_uri() + "/"
    try:
        sheet = CSS(string=style + page_numbers(html), base_url=base, url_fetcher=fetcher, font_config=fonts)
        content: bytes = HTML(string=html, base_url=base, url_fetcher=fetcher).write_pdf(
            stylesheets=[sheet],
            font_config=fonts,
            pdf_variant=_VARIANT,
            pdf_tags=True,
            pdf_identifier=hashlib.sha256(html.encode()).digest()[:16],
        )
    except FatalURLFetchingError as refused:
        # Not an Exception in WeasyPrint, so that it can't be passed over there; for us it is one.
        raise LinkRefused(str(refused)) from refused
    return content


def page_numbers(html: str) -> str:
    """The rule that numbers the pages of a document, in the document's language."""
    found = _LANGUAGE.search(html)
    with translation.override(found[1] if found else "en"):
        said = say("page {page} of {pages}", page='" counter(page) "', pages='" counter(pages) "')
    return f'\n@page {{ @bottom-right {{ content: "{said}"; }} }}'


@cache
def own_fonts() -> Any:
    """A fetcher that opens our fonts and photos written into the page: no network, no other file."""
    from weasyprint.urls import (
        FatalURLFetchingError,
        URLFetcher,
        URLFetcherResponse,
    )

    class OwnFonts(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
            if url.startswith(OWN_PHOTO):
                return URLFetcherResponse(url, b64decode(url.removeprefix(OWN_PHOTO)))
            name = url.removeprefix(FONTS.as_uri() + "/")
            if name not in {font.name for font in FONTS.glob("*.woff2")}:
                raise FatalURLFetchingError(f"A document may open its own fonts only, not {url}")
            return URLFetcherResponse(url, _unpacked(name))

    return OwnFonts()


@cache
def _unpacked(name: str) -> bytes:
    """A font as it is laid out with. Unpacking it takes longer than most pages, so it is done once."""
    from fontTools.ttLib import woff2  # type: ignore[import-untyped]

    content = io.BytesIO()
    woff2.decompress(io.BytesIO((FONTS / name).read_bytes()), content)
    return content.getvalue()
