"""The settings of the books, and the shop's own codes and names of its accounts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from babel import Locale
from django import forms
from django.core.exceptions import ValidationError
from stdnum import bic, iban
from stdnum.exceptions import InvalidChecksum, InvalidComponent, InvalidFormat, InvalidLength
from stdnum.exceptions import ValidationError as NotSound

from quotes.calc.books.accounts import DEFAULT_ACCOUNTS
from quotes.calc.books.values import AccountCode, Role
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.models import DepositBy, LabourBy, Series

PRACTICE = "Default: common practice, no source."
IBAN_FAULTS: Mapping[type[NotSound], str] = {
    InvalidChecksum: "its check figures do not fit the rest: one is mistyped or missing",
    InvalidLength: "it has the wrong length",
    InvalidComponent: "it begins with letters that are no country's",
    InvalidFormat: "letters and figures do not stand as in that country's numbers",
}
BIC_FAULTS: Mapping[type[NotSound], str] = {
    InvalidLength: "it has the wrong length",
    InvalidFormat: "letters and figures do not stand where they belong",
    InvalidComponent: "its fifth and sixth letter are no country's",
}
WHOLE = ("payment_days", "late_after_days", "years_kept")


class BooksSettingsForm(SettingsForm):
    """Every field is named as the settings' own."""

    country = Choice(label="Country you are taxed in", required=False)
    account_name = Line("Name on the account", 70)
    iban = Line("IBAN", 40, help_text="It stands on invoices; with it in euros, so does the payment code.")
    bic = Line("BIC", 14, help_text="Only where the bank asks for it.")
    payment_days = Figure("Days to pay", "0", "365", 0, unit="days", help_text=f"0: at once. {PRACTICE}")
    payment_words = Line("How it is to be paid, in words", 200)
    late_pct_a_year = Figure(
        "Interest when late", "0", "100", 3, unit="per cent a year", help_text="0 asks for none."
    )
    late_after_days = Figure("Proposed after", "0", "365", 0, unit="days", help_text=PRACTICE)
    deposit_by = Choice(label="A deposit is asked for by", choices=DepositBy.choices)
    series = Choice(label="Numbers run in", choices=Series.choices)
    labour_by = Choice(label="Bench work is invoiced at", choices=LabourBy.choices)
    labour_cost_an_hour = Figure(
        "An hour at the bench costs you", "0", "10000", help_text="For the job margin. 0 leaves it out."
    )
    years_kept = Figure(
        "Documents are kept for", "1", "50", 0, unit="years", help_text=f"{PRACTICE} Ask someone licensed."
    )

    def __init__(self, *args: Any, unit: str = "", **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["country"]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [("", "not said"), *territories()]
        cost = self.fields["labour_cost_an_hour"]
        assert isinstance(cost, Figure)
        cost.unit = unit

    def clean_iban(self) -> str:
        return _sound(
            self.cleaned_data["iban"], iban, IBAN_FAULTS, "an IBAN such as DE74 1234 5678 0000 0000 42"
        )

    def clean_bic(self) -> str:
        return _sound(
            self.cleaned_data["bic"], bic, BIC_FAULTS, "8 or 11 letters and figures, SORYDE21 or so"
        )

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        for name in WHOLE:
            if data.get(name) is not None:
                data[name] = int(data[name])
        number, country = data.get("bic", ""), data.get("iban", "")[:2]
        if number and country and number[4:6] != country:
            self.add_error(
                "bic",
                f"{quoted(number)} is a bank's in {number[4:6]}, but the IBAN is of {country}: one is wrong.",
            )
        return data


def _sound(typed: str, kind: Any, faults: Mapping[type[NotSound], str], allowed: str) -> str:
    """The number without its blanks; a fault says which part of it is wrong."""
    if not typed.strip():
        return ""
    try:
        return str(kind.validate(typed)).upper()
    except NotSound as wrong:
        why = next((said for sort, said in faults.items() if isinstance(wrong, sort)), "it is not sound")
        raise ValidationError(f"{quoted(typed)} can't be it: {why}. Allowed is {allowed}.") from None


def territories() -> list[tuple[str, str]]:
    """Countries by name, with their two letters (ISO 3166)."""
    names = Locale("en").territories
    return sorted(
        ((code, name) for code, name in names.items() if len(code) == 2 and code.isalpha() and code != "ZZ"),
        key=lambda pair: pair[1],
    )


class AccountsForm(SettingsForm):
    """A code and a name for every part that an account has in the entries."""

    roles: Sequence[Role] = tuple(DEFAULT_ACCOUNTS)

    def __init__(self, accounts: Mapping[Role, AccountCode], data: Mapping[str, Any] | None = None) -> None:
        super().__init__(data, prefix="account")
        for role in self.roles:
            told = {"code": accounts[role].code, "name": accounts[role].name}
            self.fields[f"code_{role}"] = Line("Code", 20, required=True, initial=told["code"])
            self.fields[f"name_{role}"] = Line("Name", 80, required=True, initial=told["name"])

    def rows(self) -> list[tuple[str, forms.BoundField, forms.BoundField]]:
        """What each account is for, in words, with its two cells."""
        return [(role.replace("_", " "), self[f"code_{role}"], self[f"name_{role}"]) for role in self.roles]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        times = Counter(data.get(f"code_{role}", "") for role in self.roles)
        for role in self.roles:
            code = data.get(f"code_{role}", "")
            if code and times[code] > 1:
                self.add_error(
                    f"code_{role}", f"{quoted(code)} stands here {times[code]} times: once is enough."
                )
        return data

    def value(self) -> tuple[AccountCode, ...]:
        data = self.cleaned_data
        return tuple(
            AccountCode(role=role, code=data[f"code_{role}"], name=data[f"name_{role}"])
            for role in self.roles
        )
