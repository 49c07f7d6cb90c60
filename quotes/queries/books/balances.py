"""What every account comes to on a day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Sum

from catalogue.calc.money import ZERO
from quotes.models import JournalEntry, JournalLine
from quotes.queries.books.exact import exact


@dataclass(frozen=True, slots=True)
class AccountBalance:
    """One account. `balance` is above nought where its debits are more than its credits."""

    role: str
    code: str
    name: str
    debit: Decimal
    credit: Decimal

    @property
    def balance(self) -> Decimal:
        return self.debit - self.credit


@dataclass(frozen=True, slots=True)
class TrialBalance:
    """All accounts by code. `difference` is nought, for every entry balances."""

    on: date
    rows: tuple[AccountBalance, ...]

    @property
    def debits(self) -> Decimal:
        return sum((row.debit for row in self.rows), ZERO)

    @property
    def credits(self) -> Decimal:
        return sum((row.credit for row in self.rows), ZERO)

    @property
    def difference(self) -> Decimal:
        return self.debits - self.credits

    def balance_of(self, role: str) -> Decimal:
        """What the accounts of that part in the entries come to, under whatever codes they were posted."""
        return sum((row.balance for row in self.rows if row.role == role), ZERO)


def trial_balance(on: date) -> TrialBalance:
    """Debits and credits of every account at the end of that day, by the codes they were posted with."""
    lines = JournalLine.objects.all()
    if JournalEntry.objects.filter(on__gt=on).exists():
        lines = lines.filter(entry__on__lte=on)
    sums = (
        lines.values("account", "account_name", "role")
        .annotate(debits=Sum("debit"), credits=Sum("credit"))
        .order_by("account", "account_name", "role")
    )
    rows = (
        AccountBalance(
            role=row["role"],
            code=row["account"],
            name=row["account_name"],
            debit=exact(row["debits"]),
            credit=exact(row["credits"]),
        )
        for row in sums
    )
    return TrialBalance(on, tuple(rows))
