"""The settings of the books, and the shop's own codes and names of its accounts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from babel import Locale
from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import get_language
from django.utils.translation import gettext_lazy as _
from stdnum import bic, iban
from stdnum.exceptions import InvalidChecksum, InvalidComponent, InvalidFormat, InvalidLength
from stdnum.exceptions import ValidationError as NotSound

from catalogue.calc.said import say, to_say
from quotes.calc.books.accounts import DEFAULT_ACCOUNTS
from quotes.calc.books.values import AccountCode, Role
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.models import DepositBy, LabourBy, Series

NO_COUNTRY = frozenset({"EU", "EZ", "QO", "UN", "XA", "XB", "ZZ"})
"""Two letters that stand for several countries, for none, or for a test of software."""
PRACTICE = _("Default: common practice, no source.")
IBAN_FAULTS: Mapping[type[NotSound], str] = {
    InvalidChecksum: to_say("its check figures do not fit the rest: one is mistyped or missing"),
    InvalidLength: to_say("it has the wrong length"),
    InvalidComponent: to_say("it begins with letters that are no country's"),
    InvalidFormat: to_say("letters and figures do not stand as in that country's numbers"),
}
BIC_FAULTS: Mapping[type[NotSound], str] = {
    InvalidLength: to_say("it has the wrong length"),
    InvalidFormat: to_say("letters and figures do not stand where they belong"),
    InvalidComponent: to_say("its fifth and sixth letter are no country's"),
}
FOR: Mapping[Role, str] = {
    "receivables": to_say("receivables"),
    "bank": to_say("bank"),
    "cash": to_say("cash"),
    "card": to_say("card"),
    "cheques": to_say("cheques"),
    "stock": to_say("stock"),
    "work_in_progress": to_say("work in progress"),
    "tax_on_purchases": to_say("tax on purchases"),
    "payables": to_say("payables"),
    "deposits_held": to_say("deposits held"),
    "tax_on_sales": to_say("tax on sales"),
    "sales_labour": to_say("sales labour"),
    "sales_parts": to_say("sales parts"),
    "sales_machine_work": to_say("sales machine work"),
    "sales_consumables": to_say("sales consumables"),
    "sales_other": to_say("sales other"),
    "discounts": to_say("discounts"),
    "interest_income": to_say("interest income"),
    "rounding": to_say("rounding"),
    "cost_of_parts": to_say("cost of parts"),
    "cost_of_machine_work": to_say("cost of machine work"),
    "cost_of_sales_other": to_say("cost of sales other"),
    "overheads": to_say("overheads"),
    "written_off": to_say("written off"),
    "opening": to_say("opening"),
}
"""What each account is for, in words."""
WHOLE = ("payment_days", "late_after_days", "years_kept")


class BooksSettingsForm(SettingsForm):
    """Every field is named as the settings' own."""

    country = Choice(label=_("Country you are taxed in"), required=False)
    account_name = Line(_("Name on the account"), 70)
    iban = Line(
        _("IBAN"), 40, help_text=_("It stands on invoices; with it in euros, so does the payment code.")
    )
    bic = Line(_("BIC"), 14, help_text=_("Only where the bank asks for it."))
    payment_days = Figure(
        _("Days to pay"),
        "0",
        "365",
        0,
        unit=_("days"),
        help_text=_("0: at once. Default: common practice, no source."),
    )
    payment_words = Line(_("How it is to be paid, in words"), 200)
    late_pct_a_year = Figure(
        _("Interest when late"), "0", "100", 3, unit=_("per cent a year"), help_text=_("0 asks for none.")
    )
    late_after_days = Figure(_("Proposed after"), "0", "365", 0, unit=_("days"), help_text=PRACTICE)
    deposit_by = Choice(label=_("A deposit is asked for by"), choices=DepositBy.choices)
    series = Choice(label=_("Numbers run in"), choices=Series.choices)
    labour_by = Choice(label=_("Bench work is invoiced at"), choices=LabourBy.choices)
    labour_cost_an_hour = Figure(
        _("An hour at the bench costs you"), "0", "10000", help_text=_("For the job margin. 0 leaves it out.")
    )
    years_kept = Figure(
        _("Documents are kept for"),
        "1",
        "50",
        0,
        unit=_("years"),
        help_text=_("Default: common practice, no source. Ask someone licensed."),
    )

    def __init__(self, *args: Any, unit: str = "", **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["country"]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [("", say("not said")), *territories()]
        cost = self.fields["labour_cost_an_hour"]
        assert isinstance(cost, Figure)
        cost.unit = unit

    def clean_iban(self) -> str:
        return _sound(
            self.cleaned_data["iban"],
            iban,
            IBAN_FAULTS,
            say("an IBAN such as {iban}", iban="DE74 1234 5678 0000 0000 42"),
        )

    def clean_bic(self) -> str:
        return _sound(
            self.cleaned_data["bic"],
            bic,
            BIC_FAULTS,
            say("8 or 11 letters and figures, {bic} or so", bic="SORYDE21"),
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
                say(
                    "{value} is a bank's in {land}, but the IBAN is of {country}: one is wrong.",
                    value=quoted(number),
                    land=number[4:6],
                    country=country,
                ),
            )
        return data


def _sound(typed: str, kind: Any, faults: Mapping[type[NotSound], str], allowed: str) -> str:
    """The number without its blanks; a fault says which part of it is wrong."""
    if not typed.strip():
        return ""
    try:
        return str(kind.validate(typed)).upper()
    except NotSound as wrong:
        why = next(
            (say(said) for sort, said in faults.items() if isinstance(wrong, sort)), say("it is not sound")
        )
        raise ValidationError(
            say(
                "{value} can't be it: {why}. Allowed is {allowed}.",
                value=quoted(typed),
                why=why,
                allowed=allowed,
            )
        ) from None


def territories() -> list[tuple[str, str]]:
    """Countries by name, with their two letters (ISO 3166)."""
    names = Locale(get_language() or "en").territories
    return sorted(
        ((code, name) for code, name in names.items() if code.isalpha() and code not in NO_COUNTRY),
        key=lambda pair: pair[1],
    )


class AccountsForm(SettingsForm):
    """A code and a name for every part that an account has in the entries."""

    roles: Sequence[Role] = tuple(DEFAULT_ACCOUNTS)

    def __init__(self, accounts: Mapping[Role, AccountCode], data: Mapping[str, Any] | None = None) -> None:
        super().__init__(data, prefix="account")
        for role in self.roles:
            told = {"code": accounts[role].code, "name": accounts[role].name}
            self.fields[f"code_{role}"] = Line(_("Code"), 20, required=True, initial=told["code"])
            self.fields[f"name_{role}"] = Line(_("Name"), 80, required=True, initial=told["name"])

    def rows(self) -> list[tuple[str, forms.BoundField, forms.BoundField]]:
        """What each account is for, in words, with its two cells."""
        return [(say(FOR[role]), self[f"code_{role}"], self[f"name_{role}"]) for role in self.roles]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        times = Counter(data.get(f"code_{role}", "") for role in self.roles)
        for role in self.roles:
            code = data.get(f"code_{role}", "")
            if code and times[code] > 1:
                self.add_error(
                    f"code_{role}",
                    say(
                        "{value} stands here {times} times: once is enough.",
                        value=quoted(code),
                        times=times[code],
                    ),
                )
        return data

    def value(self) -> tuple[AccountCode, ...]:
        data = self.cleaned_data
        return tuple(
            AccountCode(role=role, code=data[f"code_{role}"], name=data[f"name_{role}"])
            for role in self.roles
        )
