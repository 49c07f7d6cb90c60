"""The reminder on paper: who is asked, for what, by when, and where to pay."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from quotes.calc.books.papers import Claim, ReminderPaper
from quotes.documents.invoice.payments import reminder_pdf
from quotes.documents.invoice.reminder import reminder_context
from tests.documents.invoice.paper_text import pages
from tests.documents.invoice.payments import statement_paper

OF = statement_paper()


def claim(number: str, amount: str, open_amount: str, time: int) -> Claim:
    return Claim(
        kind="invoice",
        number=number,
        on=date(2026, 9, 1),
        due_on=date(2026, 9, 15),
        amount=Decimal(amount),
        open=Decimal(open_amount),
        time=time,
    )


def paper(*claims: Claim) -> ReminderPaper:
    return ReminderPaper(
        number="N-2026-0003",
        on=date(2026, 11, 25),
        pay_by=date(2026, 12, 5),
        claims=claims,
        words="We have asked before.\n\nPlease pay.",
        currency="EUR",
        decimals=2,
        workshop=OF.workshop,
        customer=OF.customer,
        bank=OF.bank,
    )


def test_it_names_what_is_claimed_what_was_paid_of_it_and_the_sum() -> None:
    claimed = paper(claim("I-2026-0011", "1910.00", "910.00", 2), claim("I-2026-0012", "80.50", "80.50", 1))
    (told,) = pages(reminder_pdf(claimed))

    assert "Second payment reminder" in told
    assert "Kaja Brenner" in told
    assert "Pay €990.50 by 5 December 2026" in told
    assert "I-2026-0011, I-2026-0012." in told
    assert "Invoice I-2026-0011 1 Sep 2026 15 Sep 2026 71 days 1,910.00 1,000.00 910.00" in told
    assert "Open on 25 Nov 2026 990.50" in told


def test_nothing_stands_under_paid_where_nothing_was() -> None:
    assert reminder_context(paper(claim("I-2026-0012", "80.50", "80.50", 1)))["settled"] is False
