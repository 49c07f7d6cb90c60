"""The pages look like one hand made them: they share their head, their tables, and name what is pressed."""

from __future__ import annotations

import re

from tests.browser.gallery.templates import FOLDER, other_heads, other_tables, templates, unnamed

OTHERS = {
    "404.html": "stands alone: nobody may be signed in, and there may be no database",
    "out_of_order.html": "stands alone, for the same reason",
    "sent_late.html": "stands alone: whoever sent it may be signed out by now",
    "site.html": "the frame of every page of the workshop, without a head of its own",
    "quotes/customer_link.html": "the frame of every page behind a link, without a head of its own",
    "quotes/home/first_steps_page.html": "is also a part of today",
    "quotes/worksheet.html": "comes anew with every press, its head with it",
    "quotes/bench/teardown.html": "a bench sheet: no margin, one column for gloves",
    "quotes/bench/record_group.html": "a bench sheet, as the teardown",
    "quotes/invited_gone.html": "tells a stranger nothing of the workshop",
    "quotes/customer_gone.html": "tells a stranger nothing of the workshop",
    "quotes/customer_file.html": "tells a stranger nothing of the workshop",
    "quotes/customer_wait.html": "tells a stranger nothing of the workshop",
    "quotes/customer_receipt.html": "the customer's: a lead heads the body, the margin is a note",
    "quotes/bench/customer_extra.html": "the customer's, as the receipt",
    "quotes/bench/customer_findings.html": "the customer's, as the receipt",
    "quotes/bench/customer_service.html": "the customer's, as the receipt",
}


def test_a_page_with_a_head_of_its_own_has_a_reason() -> None:
    assert set(other_heads()) == set(OTHERS)


def test_every_table_is_drawn_in_a_shared_way_and_says_what_its_heads_head() -> None:
    assert other_tables() == []


def test_everything_to_press_has_a_name() -> None:
    assert unnamed() == []


EMPTY = re.compile(
    r'<p>\s*(?:<b>{% translate "|<b>{% blocktranslate[^}]*%}|{% blocktranslate[^}]*%}<b>)'
    r"(?:No|Nothing|None|Nobody)\b"
)
SAY_MORE = {
    "list.html": "leads to the whole list",
    "quotes/home.html": "the bench of today, in one sentence",
    "quotes/replacement/list.html": "names the unit, or the command",
    "quotes/learning/life.html": "says which of two reasons",
    "quotes/learning/lives.html": "leads to the two ways in",
    "quotes/books/home_lines.html": "the good news of the day, in one sentence",
    "quotes/books/build.html": "in one sentence with what comes first",
    "quotes/books/refund.html": "names what, and leads on",
    "quotes/books/invoice.html": "goes on with how it is paid",
    "quotes/bench/sent_back.html": "names the job",
    "quotes/bench/engine_due.html": "goes on with why",
    "quotes/bench/calibration.html": "goes on with figures",
}


def test_what_is_empty_says_so_by_one_template_or_has_a_reason() -> None:
    assert {name for name, text in templates() if EMPTY.search(text)} == set(SAY_MORE)


WIDTH = re.compile(r"\bwidth=([1-9]\d?)\b|[\"' ]w(\d\d?)[\"' ]")
ROOT = FOLDER.parent


def test_every_width_that_a_field_asks_for_has_its_rule() -> None:
    """The class is put together from a number, so a search for its name does not find it in use."""
    forms = [*ROOT.glob("catalogue/forms/**/*.py"), *ROOT.glob("quotes/**/*.py"), *FOLDER.rglob("*.html")]
    asked = {int(one or other) for path in forms for one, other in WIDTH.findall(path.read_text())}
    rules = (ROOT / "quotes/static/quotes/site.css").read_text()
    assert asked == {int(width) for width in re.findall(r"^\.w(\d+) {", rules, re.MULTILINE)}
