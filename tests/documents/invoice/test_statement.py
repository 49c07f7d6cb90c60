"""The statement of account: what is owed, what it is made of, how old it is, and every movement."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pymupdf
import pytest

from quotes.calc.books.papers import StatementPaper
from quotes.calc.books.statement import Movement
from quotes.calc.invoice.values import Account
from quotes.documents.invoice import statement_pdf
from quotes.documents.invoice.statement import statement_context
from tests.documents.invoice.paper_text import pages
from tests.documents.invoice.payments import statement_paper

PAPER = statement_paper()
LETTER_WIDTH, MARGIN = 612, 16 / 25.4 * 72


@pytest.fixture(scope="module")
def told() -> list[str]:
    return pages(statement_pdf(PAPER))


def one(amount: str, open_amount: str, due: date = date(2026, 11, 1)) -> StatementPaper:
    movement = Movement(
        on=date(2026, 10, 18),
        kind="Invoice",
        number="I-2026-0042",
        due_on=due,
        amount=Decimal(amount),
        open=Decimal(open_amount),
    )
    return statement_paper(movement, held="0")


def said(paper: StatementPaper, key: str) -> str:
    return str(statement_context(paper)[key]).replace("\N{NO-BREAK SPACE}", " ")


def test_the_first_sentence_says_what_is_owed_and_what_of_it_is_overdue(told: list[str]) -> None:
    owed, late = PAPER.account.closing, PAPER.account.overdue
    assert 0 < late < owed
    assert f"Kaja Brenner owes €{owed:,.2f} on 25 November 2026, of which €{late:,.2f} is overdue." in told[0]
    assert "deposits of €500.00 are held" in told[0]


def test_what_is_still_open_comes_to_the_balance(told: list[str]) -> None:
    assert PAPER.open_sum == PAPER.account.closing == sum(PAPER.by_age().values())
    assert f"Open on 25 Nov 2026 {PAPER.account.closing:,.2f}" in told[0]


def test_each_open_document_says_for_how_long_it_is_over(told: list[str]) -> None:
    assert "I-2026-0011 2 May 2026 16 May 2026 193 days over 1,910.00" in told[0]
    assert "I-2026-0024 13 Nov 2026 27 Nov 2026 not due yet 1,923.00" in told[0]


def test_every_age_has_its_sum(told: list[str]) -> None:
    for row in ("Not due yet 1,923.00", "1 to 30 days over 1,922.00", "31 to 60 days over 1,920.00"):
        assert row in told[0]
    assert "61 to 90 days over 1,917.00" in told[0]
    assert "More than 90 days over 1,910.00" in told[0]


def test_every_movement_stands_with_its_balance_and_each_page_has_the_heads(told: list[str]) -> None:
    assert len(told) == 3
    words = " ".join(told)
    for line in PAPER.account.lines:
        assert line.number in words
        assert f"{line.balance:,.2f}".replace("-", "\N{MINUS SIGN}") in words
    for number, page in enumerate(told, start=1):
        assert "On What Asked for" in page
        assert f"page {number} of 3" in page


def test_it_says_where_to_pay_and_what_to_say(told: list[str]) -> None:
    assert f"Pay €{PAPER.account.closing:,.2f} to IE74 QRYW 0001 4200 0001 42, Quarry Row Engines" in told[0]


def test_without_an_account_number_nobody_is_told_to_transfer() -> None:
    paper = one("100", "100").model_copy(update={"bank": Account()})
    assert "to" not in [words for words, _ in statement_context(paper)["pay"]]


def test_money_in_the_customers_favour_is_not_asked_for() -> None:
    paper = one("-120.50", "-120.50")
    assert said(paper, "lead") == "€120.50 stands in favour of Kaja Brenner on 25 November 2026."
    assert statement_context(paper)["pay"] == ()
    assert statement_context(paper)["still_open"][0].late == "in your favour"
    assert statement_context(paper)["closing"] == "\N{MINUS SIGN}120.50"


def test_where_nothing_is_owed_it_says_so() -> None:
    assert said(one("0", "0"), "lead") == "Nothing is owed on 25 November 2026."


def test_what_is_due_on_the_last_day_is_not_over_and_a_day_later_it_is_one_day() -> None:
    on_the_day = statement_context(one("100", "100", date(2026, 11, 25)))["still_open"][0]
    the_day_before = statement_context(one("100", "100", date(2026, 11, 24)))["still_open"][0]
    assert (on_the_day.late, the_day_before.late) == ("not due yet", "1 day over")


def test_millions_with_three_decimals_and_a_long_name_stay_on_the_paper() -> None:
    owed = Movement(
        on=date(2026, 3, 3),
        kind="Credit note",
        number="C-2026-0003",
        amount=Decimal("-1234567.891"),
        open=Decimal("-1234567.891"),
    )
    long = PAPER.customer.model_copy(update={"name": "Ropewalk Hill-climb and Sprint Club " * 3})
    content = statement_pdf(
        statement_paper(owed, currency="KWD", decimals=3, paper="Letter", customer=long, held="0")
    )
    with pymupdf.open(stream=content) as document:  # type: ignore[no-untyped-call]
        right = {word[2] for page in document for word in page.get_text("words")}
    assert max(right) <= LETTER_WIDTH - MARGIN + 1


def test_the_foot_stays_one_line_however_long_the_name() -> None:
    long = PAPER.customer.model_copy(update={"name": "Ropewalk Hill-climb and Sprint Club " * 3})
    foot = str(statement_context(PAPER.model_copy(update={"customer": long}))["foot"])
    assert "Ropewalk Hill-climb and Sprint Club …" in foot
