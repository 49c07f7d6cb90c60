"""What the books begin with: a sum for each account, and one by one what customers and suppliers are owed."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from quotes.actions.books.opening import ITEMISED
from quotes.actions.books.opening_rows import OpeningBill, OpeningDeposit, OpeningItem
from quotes.calc.books.accounts import ON_THE_CREDIT_SIDE, Accounts
from quotes.calc.books.values import Role
from quotes.forms.books.bills import LARGEST, figure_in
from quotes.forms.books.fields import Payer
from quotes.forms.fields import quoted
from quotes.forms.figures import Day, Figure, Line, SettingsForm
from quotes.forms.settings_rows import Row, Rows, rows_of
from quotes.models import Acceptance
from quotes.queries.books.bills import accepted_builds

FIRST_ROWS = 3
MORE = 6
"""So many rows are added by one press."""


class OpeningDay(SettingsForm):
    """The last day of the books before these."""

    on = Day(_("As they stood on"))


class BalancesForm(SettingsForm):
    """A sum for each account, above nought on its own side; blank for none."""

    def __init__(
        self, accounts: Accounts, data: Mapping[str, Any] | None, *, unit: str, decimals: int
    ) -> None:
        super().__init__(data, prefix="balance")
        self.accounts = {role: account for role, account in accounts.items() if role not in ITEMISED}
        for role, account in self.accounts.items():
            label = f"{account.code} {say(account.name)}"
            self.fields[role] = Figure(label, f"-{LARGEST}", LARGEST, decimals, required=False)
            figure_in(self, role, say("credit") if role in ON_THE_CREDIT_SIDE else say("debit"), decimals)

    def cells(self) -> list[forms.BoundField]:
        return [self[role] for role in self.accounts]

    def amounts(self) -> dict[Role, Decimal]:
        """What was given; an account left blank is not named."""
        return {
            role: self.cleaned_data[role] for role in self.accounts if self.cleaned_data[role] is not None
        }


def _needed(row: SettingsForm, **needed: str) -> None:
    """Every field by its name, with what it is called in a fault."""
    for name, label in needed.items():
        if row.cleaned_data.get(name) in (None, "") and name not in row.errors:
            row.add_error(name, say("Nothing is given: {label} is needed.", label=say(label)))


class OwedByRow(Row):
    """What a customer owed, by the number of its document then."""

    customer = Payer(_("Customer"))
    number = Line(_("Document"), 24)
    on = Day(_("Of"), required=False)
    due_on = Day(_("To be paid by"), required=False)
    amount = Figure(_("Sum with tax"), f"-{LARGEST}", LARGEST, 3, required=False)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        _needed(
            self,
            customer=to_say("customer"),
            number=to_say("document"),
            on=to_say("of"),
            amount=to_say("sum with tax"),
        )
        return data

    def value(self) -> OpeningItem:
        data = self.cleaned_data
        return OpeningItem(data["customer"], data["number"], data["on"], data["due_on"], data["amount"])


class OwedToRow(Row):
    """What was owed to a supplier, by the number of their bill."""

    supplier = Line(_("Supplier"), 120)
    number = Line(_("Number on the bill"), 60)
    on = Day(_("Of"), required=False)
    due_on = Day(_("To be paid by"), required=False)
    gross = Figure(_("Sum with tax"), f"-{LARGEST}", LARGEST, 3, required=False)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        _needed(
            self,
            supplier=to_say("supplier"),
            number=to_say("number on the bill"),
            on=to_say("of"),
            gross=to_say("sum with tax"),
        )
        return data

    def value(self) -> OpeningBill:
        data = self.cleaned_data
        return OpeningBill(data["supplier"], data["number"], data["on"], data["due_on"], data["gross"])


class HeldRow(Row):
    """A deposit that a customer had paid for a build, which is found once the row is checked."""

    found: Acceptance | None = None
    build = Line(_("Build, by its quote"), 40)
    amount = Figure(_("Deposit held"), "0", LARGEST, 3, required=False)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["build"].widget.attrs["list"] = "builds"

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        _needed(self, build=to_say("build, by its quote"), amount=to_say("deposit held"))
        return data


OwedByRows: type[Rows] = rows_of(OwedByRow, "")
OwedToRows: type[Rows] = rows_of(OwedToRow, "")
HeldRows: type[Rows] = rows_of(HeldRow, "build")


class OpeningForm:
    """The whole page; kept as one entry or not at all."""

    def __init__(
        self, accounts: Accounts, data: Mapping[str, Any] | None = None, *, unit: str, decimals: int
    ) -> None:
        blank: list[dict[str, Any]] | None = None if data else [{} for _ in range(FIRST_ROWS - 1)]
        self.day = OpeningDay(data)
        self.balances = BalancesForm(accounts, data, unit=unit, decimals=decimals)
        self.customers = OwedByRows(data, prefix="customers", initial=blank)
        self.suppliers = OwedToRows(data, prefix="suppliers", initial=blank)
        self.deposits = HeldRows(data, prefix="deposits", initial=blank)
        for rows, name in ((self.customers, "amount"), (self.suppliers, "gross"), (self.deposits, "amount")):
            for row in rows:
                figure_in(row, name, unit, decimals)

    def is_valid(self) -> bool:
        parts = (self.day, self.balances, self.customers, self.suppliers, self.deposits)
        sound = [part.is_valid() for part in parts]
        return all(sound) and self._builds_known()

    def _builds_known(self) -> bool:
        rows = self.deposits.standing()
        known = accepted_builds(row.cleaned_data["build"].strip() for row in rows)
        for row in rows:
            typed = row.cleaned_data["build"].strip()
            row.found = known.get(typed.upper())
            if row.found is None:
                row.add_error(
                    "build", say("{value} is no accepted quote: its number is needed.", value=quoted(typed))
                )
        return all(row.found is not None for row in rows)

    def items(self) -> list[OpeningItem]:
        return [row.value() for row in self.customers.standing()]

    def bills(self) -> list[OpeningBill]:
        return [row.value() for row in self.suppliers.standing()]

    def held(self) -> list[OpeningDeposit]:
        return [OpeningDeposit(row.found, row.cleaned_data["amount"]) for row in self.deposits.standing()]
