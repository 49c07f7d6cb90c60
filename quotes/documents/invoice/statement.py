"""What the template of a statement of account is told: finished words, no sums."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from textwrap import shorten
from typing import Any

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_count, to_say
from quotes.calc.books.ages import Age, days_past
from quotes.calc.books.papers import StatementPaper
from quotes.calc.books.statement import Movement, StatementLine
from quotes.documents.invoice.amounts import in_column, in_groups, in_text
from quotes.documents.letterhead import PaperHeading, at_lines
from quotes.documents.words import currency_in_words, day, first_large, long_day

FOOT_LETTERS = 40
AGES: tuple[tuple[Age, str], ...] = (
    ("not_due", to_say("Not due yet")),
    ("to_30", to_say("1 to 30 days over")),
    ("to_60", to_say("31 to 60 days over")),
    ("to_90", to_say("61 to 90 days over")),
    ("over_90", to_say("More than 90 days over")),
)


@dataclass(frozen=True, slots=True)
class AccountRow:
    """A movement and the balance after it."""

    on: str
    what: str
    debit: str
    credit: str
    balance: str


@dataclass(frozen=True, slots=True)
class OpenRow:
    """A document that is not settled in full. `late` says for how long it should have been."""

    what: str
    on: str
    due: str
    late: str
    amount: str


def statement_context(paper: StatementPaper) -> dict[str, Any]:
    """Everything that the statement says."""
    account, language = paper.account, paper.language
    last = long_day(account.last, language)
    return {
        "heading": PaperHeading(paper.workshop, paper.customer, language),
        "title": say("Statement of account: {customer}, {day}", customer=paper.customer.name, day=last),
        "foot": _foot(paper, last),
        "at": at_lines(paper.workshop),
        "made": f"{account.last:%Y-%m-%d}T00:00:00Z",
        "strip": (
            (say("Statement for"), paper.customer.name),
            (say("From"), long_day(account.first, language)),
            (say("To"), last),
        ),
        "paper": paper,
        "currency": currency_in_words(paper.currency, language),
        "lead": _lead(paper, last),
        "held": _held(paper),
        "ages": tuple(_ages(paper)),
        "first": day(account.first, language),
        "last": day(account.last, language),
        "opening": _column(account.opening, paper),
        "rows": tuple(_row(line, paper) for line in account.lines),
        "closing": _column(account.closing, paper),
        "still_open": tuple(_open(item, paper) for item in account.still_open),
        "open_sum": _column(paper.open_sum, paper),
        "pay": _pay(paper),
    }


def _foot(paper: StatementPaper, last: str) -> str:
    return say(
        "{workshop} · Statement of account, {customer} · {day}",
        workshop=paper.workshop.name,
        customer=_short(paper.customer.name),
        day=last,
    )


def _short(name: str) -> str:
    """As much of a name as leaves the foot of a page on one line."""
    return shorten(name, FOOT_LETTERS, placeholder=" …")


def _text(amount: Decimal, paper: StatementPaper) -> str:
    return in_text(amount, paper.currency, paper.decimals, paper.language)


def _column(amount: Decimal, paper: StatementPaper) -> str:
    return in_column(amount, paper.decimals, paper.language)


def _lead(paper: StatementPaper, last: str) -> str:
    account, name = paper.account, paper.customer.name
    if account.closing > ZERO:
        told = {"name": name, "sum": _text(account.closing, paper), "day": last}
        if not account.overdue:
            return say("{name} owes {sum} on {day}.", **told)
        overdue = _text(account.overdue, paper)
        return say("{name} owes {sum} on {day}, of which {overdue} is overdue.", overdue=overdue, **told)
    if account.closing < ZERO:
        credit = _text(-account.closing, paper)
        return say("{sum} stands in favour of {name} on {day}.", sum=credit, name=name, day=last)
    return say("Nothing is owed on {day}.", day=last)


def _held(paper: StatementPaper) -> str:
    held = paper.account.deposits_held
    if not held:
        return ""
    return say(
        "Beside it, deposits of {sum} are held for builds that are not invoiced yet.", sum=_text(held, paper)
    )


def _ages(paper: StatementPaper) -> Iterator[tuple[str, str]]:
    sums = paper.by_age()
    for age, words in AGES:
        if age in sums:
            yield say(words), _column(sums[age], paper)


def _row(line: StatementLine, paper: StatementPaper) -> AccountRow:
    return AccountRow(
        on=day(line.on, paper.language),
        what=_what(line.kind, line.number),
        debit=_column(line.debit, paper) if line.debit else "",
        credit=_column(line.credit, paper) if line.credit else "",
        balance=_column(line.balance, paper),
    )


def _what(kind: str, number: str) -> str:
    return f"{first_large(kind)} {number}"


def _open(item: Movement, paper: StatementPaper) -> OpenRow:
    return OpenRow(
        what=_what(item.kind, item.number),
        on=day(item.on, paper.language),
        due=day(item.due_on, paper.language) if item.due_on else "",
        late=_late(item, paper.account.last),
        amount=_column(item.open, paper),
    )


def _late(item: Movement, last: date) -> str:
    if item.open < ZERO:
        return say("in your favour")
    past = days_past(item.due_on or item.on, last)
    if past <= 0:
        return say("not due yet")
    return say_count("{count} day over", "{count} days over", past)


def _pay(paper: StatementPaper) -> tuple[tuple[str, bool], ...]:
    """The boxed line, as pieces of text and whether they are bold."""
    if paper.account.closing <= ZERO:
        return ()
    pieces = [(say("Pay {sum}", sum=_text(paper.account.closing, paper)), True)]
    if paper.bank.iban:
        name = f", {paper.bank.name}" if paper.bank.name else ""
        pieces += [(say("to"), True), (f"{in_groups(paper.bank.iban)}{name}", False)]
    return (*pieces, (say("and say"), True), (say("the numbers of the invoices that it is for."), False))
