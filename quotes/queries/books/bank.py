"""A statement that was kept: the lines of it that wait, and what each is proposed to settle."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import QuerySet

from catalogue.calc.money import round_half_up
from quotes.calc.books.bank_lines import Reading, StatementLine, heads_fingerprint
from quotes.calc.books.matching import ItemToMatch, LineToMatch, Match, match_lines
from quotes.models import BankColumns, BankFile, BankLine, ItemKind, OpenItem, Workshop
from quotes.queries.workshop import currency_decimals

AT_ONCE = 500
KNOWN = "known"
"""Beside the reading of a file: how many of its lines were known."""


@dataclass(frozen=True, slots=True)
class KnownLine:
    """A line that an earlier file held."""

    file: str
    row: int
    state: str


@dataclass(frozen=True, slots=True)
class Proposal:
    """A line that waits, with what it is proposed to be."""

    line: BankLine
    match: Match


def reading_of(file: BankFile) -> Reading | None:
    """How a file is, or was, to be read; None where nobody has chosen yet."""
    chosen = {key: value for key, value in file.reading.items() if key in Reading.model_fields}
    return Reading.model_validate(chosen) if chosen else None


def known_in(file: BankFile) -> int:
    """How many lines of a file that was taken in were known from earlier ones."""
    return int(file.reading.get(KNOWN, 0))


def file_lines(file: BankFile) -> QuerySet[BankLine]:
    """The lines of a file in its order, with the payments that were taken."""
    return file.lines.select_related("payment__customer").order_by("row", "pk")


def proposals(file: BankFile) -> tuple[Proposal, ...]:
    """What the waiting lines of a file are proposed to settle. Three queries."""
    decimals, _ = bank_money()
    lines = list(file.lines.waiting().order_by("row", "pk"))
    asked = [
        LineToMatch(one.pk, one.row, round_half_up(one.amount, decimals), one.payer, one.text)
        for one in lines
    ]
    by_pk = {line.pk: line for line in lines}
    matches = match_lines(asked, items_to_match(decimals))
    return tuple(Proposal(by_pk[match.line_pk], match) for match in matches)


def items_to_match(decimals: int) -> list[ItemToMatch]:
    """Everything that customers owe or have owed, what is due first before the rest, in whole coins."""
    kinds = (ItemKind.INVOICE, ItemKind.DEPOSIT, ItemKind.OPENING)
    items = OpenItem.objects.filter(amount__gt=0, kind__in=kinds).order_by("due_on", "on", "pk")
    fields = ("pk", "number", "customer_id", "customer__name", "open_amount")
    return [
        ItemToMatch(pk, number, owner, name, round_half_up(open_amount, decimals))
        for pk, number, owner, name, open_amount in items.values_list(*fields)
    ]


def known_lines(lines: Collection[StatementLine]) -> dict[str, KnownLine]:
    """Fingerprint to the line of an earlier file, for those that are known."""
    wanted = [line.fingerprint for line in lines]
    found: dict[str, KnownLine] = {}
    for start in range(0, len(wanted), AT_ONCE):
        rows = BankLine.objects.filter(fingerprint__in=wanted[start : start + AT_ONCE])
        for row in rows.select_related("file"):
            found[row.fingerprint] = KnownLine(row.file.name, row.row, str(row.get_state_display()))
    return found


def alike_lines(lines: Iterable[StatementLine]) -> dict[tuple[date, Decimal], KnownLine]:
    """Day and sum to a line of an earlier file that has both, whatever its texts say.

    A bank that words its lines anew, or a column chosen otherwise, would bring the same payment twice.
    """
    wanted = {(line.on, line.amount) for line in lines if line.amount > 0}
    if not wanted:
        return {}
    days = [day for day, _ in wanted]
    rows = BankLine.objects.filter(on__gte=min(days), on__lte=max(days)).select_related("file")
    return {
        (row.on, row.amount): KnownLine(row.file.name, row.row, str(row.get_state_display()))
        for row in rows
        if (row.on, row.amount) in wanted
    }


def remembered_reading(heads: Sequence[str]) -> Reading | None:
    """How a file with these heads was read last."""
    row = BankColumns.objects.filter(heads_sha256=heads_fingerprint(heads)).first()
    return Reading.model_validate(row.columns) if row else None


def bank_money() -> tuple[int, bool]:
    """The decimals of the shop's currency, and whether days are usually written month first."""
    currency = Workshop.objects.get_or_default().currency
    return currency_decimals(currency), currency == "USD"
