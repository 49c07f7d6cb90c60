"""What the template of a payment reminder is told: finished words, no sums."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_count
from quotes.calc.books.ages import days_past
from quotes.calc.books.papers import Claim, ReminderPaper
from quotes.calc.books.reminder_words import title_of
from quotes.documents.invoice.amounts import in_column, in_groups, in_text
from quotes.documents.letterhead import PaperHeading, at_lines
from quotes.documents.words import NO_BREAK, currency_in_words, day, first_large, long_day


@dataclass(frozen=True, slots=True)
class ClaimRow:
    """A document that is claimed. `late` says for how long it should have been paid."""

    what: str
    on: str
    due: str
    late: str
    amount: str
    settled: str
    open: str


def reminder_context(paper: ReminderPaper) -> dict[str, Any]:
    """Everything that the reminder says."""
    language, name = paper.language, title_of(paper.time)
    return {
        "heading": PaperHeading(paper.workshop, paper.customer, language),
        "title": f"{name} {paper.number}",
        "name": name,
        "foot": f"{paper.workshop.name} · {name} {paper.number} · {long_day(paper.on, language)}",
        "at": at_lines(paper.workshop),
        "made": f"{paper.on:%Y-%m-%d}T00:00:00Z",
        "strip": (
            (say("Payment reminder"), paper.number),
            (say("Dated"), long_day(paper.on, language)),
            (say("To be paid by"), long_day(paper.pay_by, language)),
        ),
        "currency": currency_in_words(paper.currency, language),
        "words": tuple(line for line in paper.words.splitlines() if line.strip()),
        "pay": _pay(paper),
        "rows": tuple(_row(claim, paper) for claim in paper.claims),
        "settled": any(claim.settled for claim in paper.claims),
        "sum": _column(paper.sum, paper),
        "today": day(paper.on, language),
    }


def _column(amount: Decimal, paper: ReminderPaper) -> str:
    return in_column(amount, paper.decimals, paper.language)


def _row(claim: Claim, paper: ReminderPaper) -> ClaimRow:
    return ClaimRow(
        what=f"{first_large(claim.kind)} {claim.number}",
        on=day(claim.on, paper.language),
        due=day(claim.due_on, paper.language),
        late=say_count("{count} day", "{count} days", days_past(claim.due_on, paper.on)),
        amount=_column(claim.amount, paper),
        settled=_column(claim.settled, paper) if claim.settled != ZERO else "",
        open=_column(claim.open, paper),
    )


def _pay(paper: ReminderPaper) -> tuple[tuple[str, bool], ...]:
    """The boxed line, as pieces of text and whether they are bold."""
    told = {
        "sum": in_text(paper.sum, paper.currency, paper.decimals, paper.language),
        "day": long_day(paper.pay_by, paper.language),
    }
    pieces = [(say("Pay {sum} by {day}", **told), True)]
    if paper.bank.iban:
        name = f", {paper.bank.name}" if paper.bank.name else ""
        iban = in_groups(paper.bank.iban).replace(" ", NO_BREAK)
        pieces += [(say("to"), True), (f"{iban}{name},", False)]
    numbers = ", ".join(claim.number for claim in paper.claims)
    return (*pieces, (say("and say"), True), (f"{numbers}.", False))
