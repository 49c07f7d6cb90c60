"""What the paper templates say, before they are set: cheap to read, for what differs from sheet to sheet."""

from __future__ import annotations

import html
import re

from django.template.loader import render_to_string
from django.utils import translation

from quotes.calc.sheet.issued_values import Sheet
from quotes.documents.paper import quote_context, receipt_context
from quotes.documents.speech import paper_in
from tests.documents.accepted import sample_acceptance
from tests.documents.drawn import assert_sound, parsed
from tests.documents.samples import comparison_with, from_hopeless_to_nearly_sure, long_ladders, one_option
from tests.sample_sheet import sample_comparison, sample_sheet

SHEET = sample_sheet()
PLACED = {"x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "r", "width", "height", "d", "viewBox"}
PLACED |= {"stroke-width", "font-size"}


def markup(sheet: Sheet) -> str:
    return render_to_string("documents/quote.html", quote_context(sheet))


def printed_in(language: str, desk: str) -> str:
    """The quote for a customer who reads one language, printed by a desk that reads another."""
    heading = SHEET.heading.model_copy(update={"language": language})
    sheet = SHEET.model_copy(update={"heading": heading})
    with translation.override(desk):
        return paper_in(language, "documents/quote.html", lambda: quote_context(sheet))


def drawings(language: str) -> list[str]:
    return re.findall(r"<svg.*?</svg>", printed_in(language, desk=language), re.DOTALL)


def words(markup_text: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", markup_text)).split())


def test_markup_in_a_name_is_printed_and_not_obeyed() -> None:
    party = SHEET.heading.customer.model_copy(update={"name": '<img src="http://example.invalid/x.png">'})
    said = markup(sample_sheet(customer=party))
    assert "&lt;img src=&quot;" in said
    assert "<img" not in said


def test_an_english_quote_is_the_same_to_the_letter_from_a_german_desk() -> None:
    assert printed_in("en", desk="de") == printed_in("en", desk="en") == markup(SHEET)


def test_a_german_quote_has_german_figures_and_dates() -> None:
    said = words(printed_in("de", desk="en"))
    for told in ("5.014,14", "9.796 $", "25. November 2026", "21. Jan. 2027"):
        assert told in said, told
    assert "$9" not in said
    assert "25 November 2026" not in said


def test_a_german_quote_is_in_german() -> None:
    said = words(printed_in("de", desk="en"))
    for told in (
        "Drei Wege, Ihren Motor aufzubauen",
        "Alle Beträge in US-Dollar",
        "etwa 19 von 20",
        "Fertig bis",
        "Was erneuert wird und warum",
    ):
        assert told in said, told
    for left in ("Stands until", "Due at the yes", "bench hours", "about 19 in 20"):
        assert left not in said, left


def test_drawings_in_german_have_german_words_and_no_comma_in_a_place() -> None:
    drawn = drawings("de")
    assert len(drawn) == len(drawings("en")) > 4
    assert any("Überstandene Saisons von 20" in each for each in drawn)
    for each in drawn:
        root = parsed(each)
        for element in root.iter():
            places = {key: value for key, value in element.attrib.items() if key in PLACED}
            assert not any(re.search(r"[^MLlhvz\d\s.-]", value) for value in places.values()), places
    for each in (each for each in drawn if "<text" in each):
        assert_sound(each)


def test_one_option_prints_as_one_way() -> None:
    said = words(markup(sample_sheet(comparison=one_option())))
    assert "One way to build your engine" in said
    assert "What differs between them" not in said


def test_a_way_that_is_the_same_work_as_another_is_not_printed_line_by_line_again() -> None:
    refresh, mild, _ = sample_comparison().options
    again = refresh.model_copy(update={"tier": mild.tier, "name": mild.name})
    said = words(markup(sample_sheet(comparison=comparison_with(refresh, again))))
    assert "Line by line the same as refresh." in said
    assert said.count("Strip and rebuild") == words(markup(sample_sheet(comparison=one_option()))).count(
        "Strip and rebuild"
    )


def test_a_firm_price_is_printed_without_a_band() -> None:
    assert "Until the engine is stripped: between" in words(markup(SHEET))
    firm = words(markup(sample_sheet(comparison=sample_comparison(firm=True))))
    assert "until the engine is stripped" not in firm.lower()


def test_long_ladders_print_every_step() -> None:
    said = words(markup(sample_sheet(comparison=long_ladders())))
    assert all(f"Part {number}" in said for number in range(1, 13))


def test_changes_are_told_from_the_second_revision_on() -> None:
    assert "Changed since the last revision" in words(markup(SHEET))
    first = SHEET.model_copy(update={"changes": ()})
    assert "Changed since the last revision" not in words(markup(first))


def test_nothing_on_the_paper_reads_as_certain() -> None:
    said = words(markup(sample_sheet(comparison=from_hopeless_to_nearly_sure())))
    assert not re.search(r"\b20 in 20\b|\b100\s?%|\b0\s%", said)


def test_attributes_carry_no_style() -> None:
    assert not re.search(r"\sstyle=|<style|<script", markup(SHEET))


def test_the_receipt_names_what_was_ticked_on_top() -> None:
    ticked = sample_acceptance(SHEET, extras=("Cam chain tensioner",))
    said = words(render_to_string("documents/receipt.html", receipt_context(SHEET, ticked)))
    assert "Ticked on top Cam chain tensioner" in said


def test_the_receipt_is_silent_on_a_tick_that_was_not_needed() -> None:
    plain = sample_acceptance(SHEET, rider_safety_read=False)
    assert "what is left was read" not in render_to_string(
        "documents/receipt.html", receipt_context(SHEET, plain)
    )
