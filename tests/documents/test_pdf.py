"""The quote and the receipt on paper: stored totals in the text, fonts inside, tags, no way out."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import cache, partial
from io import BytesIO
from typing import Any

import pymupdf
import pytest
from pypdf import PdfReader

from quotes.calc.sheet.name_words import plain_name
from quotes.calc.sheet.values import Comparison
from quotes.documents.pdf import LinkRefused, printed, quote_pdf, receipt_pdf
from tests.documents.accepted import sample_acceptance
from tests.documents.samples import long_ladders, one_option
from tests.documents.worked_sheet import worked_four
from tests.sample_sheet import sample_sheet

SHEET = sample_sheet()
A4_WIDTH = 595


@cache
def quote(paper: str = "A4") -> bytes:
    return quote_pdf(sample_sheet(paper=paper))


@cache
def real_quote() -> bytes:
    """Of the real sums, under the sample's heading."""
    return quote_pdf(sample_sheet(comparison=worked_four().comparison))


@cache
def receipt() -> bytes:
    return receipt_pdf(SHEET, sample_acceptance(SHEET))


@cache
def pages(content: bytes) -> tuple[str, ...]:
    """The text of each page, blanks made plain and lines joined."""
    told = (
        page.extract_text().replace("\N{NO-BREAK SPACE}", " ") for page in PdfReader(BytesIO(content)).pages
    )
    return tuple(" ".join(words.split()) for words in told)


def text(content: bytes) -> str:
    return " ".join(pages(content))


def test_every_stored_total_stands_on_the_paper() -> None:
    words = text(quote())
    for option in SHEET.comparison.options:
        for spread in (option.net, option.tax, option.gross):
            assert f"{spread.typical:,.2f}" in words
        assert f"{option.gross.low:,.2f}" in words
        assert f"{option.gross.high:,.2f}" in words


def squeezed(words: str) -> str:
    """Without blanks and hyphens, which fall differently when a line is broken."""
    return words.replace(" ", "").replace("-", "")


def test_every_line_of_every_option_stands_on_the_paper() -> None:
    words = squeezed(text(quote()))
    for option in SHEET.comparison.options:
        for line in (*option.lines, *option.if_needed):
            assert squeezed(plain_name(line.description)) in words
            assert f"{line.net:,.2f}" in words


def test_what_the_workshop_paid_stands_nowhere() -> None:
    rods = next(line for line in SHEET.comparison.option("full").lines if line.code == "P-ROD")
    assert rods.cost is not None
    assert f"{rods.cost:,.2f}" not in text(quote())


def test_the_first_page_is_the_comparison_with_its_picture() -> None:
    first = pages(quote())[0]
    assert "can't be told apart on finishing your season" in first
    for name in ("Leave it", "Refresh", "Mild build", "Full power"):
        assert name in first
    assert "Seasons finished, out of 20" in first
    assert "The same in numbers" in pages(quote())[1]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_picture_fits_the_first_page_on_either_paper(paper: str) -> None:
    assert "The upright scale starts at 14" in pages(quote(paper))[0]


@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_the_paper_is_the_workshops_own(paper: str, size: tuple[int, int]) -> None:
    box = PdfReader(BytesIO(quote(paper))).pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_each_foot_says_document_revision_date_and_page_of_pages() -> None:
    told = pages(quote())
    for number, words in enumerate(told, start=1):
        assert "Quote Q-2026-0312, revision 2 · 25 November 2026" in words
        assert f"page {number} of {len(told)}" in words


def test_reasons_risks_terms_cautions_and_honesty_stand_on_the_paper() -> None:
    words = text(quote()).replace("- ", "-")
    for sentence in (*SHEET.honesty, *SHEET.cautions, *SHEET.terms, *SHEET.comparison.assumptions):
        assert sentence.replace("- ", "-") in words
    assert "Burnt in a launch: told by the rider." in words
    assert "Rider safety, refresh and mild build." in words
    assert "1,800 miles of sprint racing" in words


def test_there_is_a_place_to_sign() -> None:
    last = pages(quote())[-1]
    for asked in ("Signature", "Name", "In what right", "You may spend this much more without asking me"):
        assert asked in last


def opened(content: bytes) -> Any:
    return pymupdf.open(stream=content)  # type: ignore[no-untyped-call]


def spans(content: bytes) -> Iterator[tuple[int, Any, str]]:
    with opened(content) as document:
        for page in document:
            for block in page.get_text("dict")["blocks"]:
                for line in block.get("lines", ()):
                    for span in line["spans"]:
                        box = pymupdf.Rect(span["bbox"])  # type: ignore[no-untyped-call]
                        yield page.number + 1, box, span["text"]


def test_a_sheet_of_the_real_sums_has_its_picture_on_the_first_page_and_its_totals_inside() -> None:
    told = pages(real_quote())
    assert "Seasons finished, out of 20" in told[0]
    for option in worked_four().comparison.options:
        assert f"{option.gross.typical:,.2f}" in " ".join(told)


def drawn(edge: Callable[[], Comparison]) -> bytes:
    return quote_pdf(sample_sheet(comparison=edge()))


@pytest.mark.parametrize("edge", [real_quote, partial(drawn, one_option), partial(drawn, long_ladders)])
def test_no_text_runs_off_the_paper(edge: Callable[[], bytes]) -> None:
    margin = 16 / 25.4 * 72 - 1
    for number, box, words in spans(edge()):
        assert box.x0 >= margin, (number, words)
        assert box.x1 <= A4_WIDTH - margin, (number, words)


def letters(box: Any) -> Any:
    """The part of a line of text where its small letters stand, without the room above and below."""
    inner = (box.x0, box.y0 + box.height * 0.35, box.x1, box.y1 - box.height * 0.3)
    return pymupdf.Rect(inner)  # type: ignore[no-untyped-call]


def test_no_two_words_stand_on_each_other_in_the_tables() -> None:
    found = [
        (number, letters(box), words) for number, box, words in spans(quote()) if words.strip() and number > 1
    ]
    for index, (number, box, words) in enumerate(found):
        for other_number, other, other_words in found[index + 1 :]:
            if number == other_number:
                wide = min(box.x1, other.x1) - max(box.x0, other.x0)
                high = min(box.y1, other.y1) - max(box.y0, other.y0)
                assert wide < 1 or high <= 0, (number, words, other_words)


def test_a_name_without_a_blank_is_broken_rather_than_run_off() -> None:
    content = quote_pdf(sample_sheet(engine_number="H" * 120))
    assert max(box.x1 for _, box, _ in spans(content)) <= A4_WIDTH - 44


@pytest.mark.parametrize("document", [quote, receipt])
def test_the_two_faces_are_inside_and_no_third_one(document: Callable[[], bytes]) -> None:
    with opened(document()) as found:
        fonts = {font for page in found for font in page.get_fonts()}
    assert {name.split("+")[-1] for _, _, _, name, *_ in fonts} == {"B612", "B612-Bold", "Besley-Bold"}
    assert all(extension != "n/a" for _, extension, *_ in fonts)


@pytest.mark.parametrize("document", [quote, receipt])
def test_a_screen_reader_finds_tags_title_and_language(document: Callable[[], bytes]) -> None:
    reader = PdfReader(BytesIO(document()))
    catalog: Any = reader.trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"]
    assert catalog["/Lang"] == "en"
    assert "/StructTreeRoot" in catalog
    assert reader.metadata is not None
    assert "Q-2026-0312" in (reader.metadata.title or "")


def test_the_same_sheet_gives_the_same_bytes_in_another_process() -> None:
    asked = (
        "import os, sys, django; os.environ['DJANGO_SETTINGS_MODULE'] = 'tests.settings'; django.setup();"
        "from quotes.documents.pdf import quote_pdf; from tests.sample_sheet import sample_sheet;"
        "sys.stdout.buffer.write(quote_pdf(sample_sheet()))"
    )
    other = subprocess.run([sys.executable, "-c", asked], capture_output=True, check=True).stdout
    assert other == quote()


@pytest.mark.parametrize(
    "link",
    [
        "http://example.invalid/x.png",
        "https://example.invalid/x.css",
        "file:///etc/passwd",
        "data:text/css,body{}",
        "../site.css",
        "ftp://example.invalid/x",
    ],
)
def test_a_link_out_of_our_own_fonts_stops_the_print(link: str) -> None:
    with pytest.raises(LinkRefused, match="own fonts only"):
        printed(f'<html lang="en"><title>x</title><link rel="stylesheet" href="{link}"><p>x</p>', "")
    with pytest.raises(LinkRefused, match="own fonts only"):
        printed(f'<html lang="en"><title>x</title><img src="{link}" alt="x">', "")


def test_weasyprint_is_not_loaded_until_something_is_printed() -> None:
    asked = "import sys, quotes.documents.pdf; print('weasyprint' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, check=True, text=True)
    assert done.stdout.strip() == "False"


def test_the_receipt_says_who_when_to_what_and_up_to_what_sum() -> None:
    words = text(receipt())
    for told in (
        "Marel Otten said yes to mild build for $7,524.42 with tax on 26 November 2026, 09:05",
        "owner of the engine",
        "000 555 0199",
        "up to $200.00",
        "$3,762.21",
        "piston and main bearings",
        "5e" * 32,
    ):
        assert told in words
