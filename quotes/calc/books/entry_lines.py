"""The lines of an entry while it is put together: what falls on one account and tax rate is one line."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.books.accounts import Accounts
from quotes.calc.books.values import EntryLine, Role

Key = tuple[Role, str, Decimal | None, str]
"""Account, tax code, rate in per cent, build."""


class EntryLines:
    """Sums by account: `debit` puts on, `credit` takes off; a sum below nought changes sides."""

    def __init__(self, accounts: Accounts, build: str = "") -> None:
        self._accounts, self._build = accounts, build
        self._sums: dict[Key, tuple[Decimal, str]] = {}

    def debit(
        self,
        role: Role,
        amount: Decimal,
        *,
        text: str = "",
        tax_code: str = "",
        rate_pct: Decimal | None = None,
        build: str | None = None,
    ) -> None:
        key = role, tax_code, rate_pct, self._build if build is None else build
        stands, said = self._sums.get(key, (ZERO, text))
        self._sums[key] = stands + amount, said

    def credit(
        self,
        role: Role,
        amount: Decimal,
        *,
        text: str = "",
        tax_code: str = "",
        rate_pct: Decimal | None = None,
        build: str | None = None,
    ) -> None:
        self.debit(role, -amount, text=text, tax_code=tax_code, rate_pct=rate_pct, build=build)

    def made(self) -> tuple[EntryLine, ...]:
        """One line for each account, tax code, rate and build on which anything is left."""
        return tuple(
            EntryLine(
                account=self._accounts[role],
                debit=max(amount, ZERO),
                credit=max(-amount, ZERO),
                text=text,
                tax_code=tax_code,
                rate_pct=rate_pct,
                build=build,
            )
            for (role, tax_code, rate_pct, build), (amount, text) in self._sums.items()
            if amount
        )
