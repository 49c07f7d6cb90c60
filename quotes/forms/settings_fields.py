"""The workshop's own fields on the settings page."""

from __future__ import annotations

from typing import Any

from babel import Locale
from babel.numbers import get_currency_precision, is_currency
from django import forms
from django.core.exceptions import ValidationError
from django.core.validators import validate_email

from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Figure, Line, SettingsForm, Share
from quotes.models import DistanceUnit, Paper, TaxStyle

MONEY = "9999999.99"
PRACTICE = "Default: common practice, no source."
MEMORY = "Default: from memory."


class WorkshopForm(SettingsForm):
    """Every field is named as the workshop's own."""

    name = Line("Name of the workshop", 120, required=True)
    address = Line("Address, as it is printed", 400, rows=3)
    telephone = Line("Telephone", 40)
    email = Line("Email", 254)
    tax_registration = Line("Tax registration", 40)
    paper = Choice(label="Paper", choices=Paper.choices)
    currency = Line("Currency, by its three letters", 3, required=True, help_text="Such as USD or EUR.")
    distance_unit = Choice(label="Distances are in", choices=DistanceUnit.choices)
    prices_include_tax_in_talk = forms.BooleanField(label="Prices said aloud hold the tax", required=False)
    tax_style = Choice(label="Kind of tax", choices=TaxStyle.choices)

    machine_work_markup_pct = Figure(
        "Markup on machine work", "0", "200", unit="per cent", help_text=f"{PRACTICE} Usual: 10 to 25."
    )
    cap_at_list = forms.BooleanField(label="No part is sold above its list price", required=False)
    renew_policy_parts = forms.BooleanField(
        label="Parts whose re-use is our choice are renewed whenever disturbed", required=False
    )
    consumables_pct = Figure("Consumables, of labour", "0", "100", unit="per cent", help_text=PRACTICE)
    consumables_least = Figure("Consumables, at least", "0", MONEY, help_text=PRACTICE)
    consumables_most = Figure("Consumables, at most", "0", MONEY, help_text=PRACTICE)

    deposit_pct = Figure(
        "Deposit at the yes, of the sum with tax", "0", "100", unit="per cent", help_text=PRACTICE
    )
    quote_validity_days = Figure("A quote stands for", "1", "365", 0, unit="days", help_text=PRACTICE)
    books_kept_years = Figure(
        "Books are kept, after their year, for",
        "1",
        "50",
        0,
        unit="years",
        help_text="Common practice; ask your tax adviser. A customer is erased within it.",
    )
    limit_without_asking_pct = Figure(
        "We may go above it without asking by", "0", "100", unit="per cent", help_text=PRACTICE
    )
    hours_spread_pct = Figure("Hours before the strip-down, give or take", "0", "100", unit="per cent")
    spoken_below_pct = Figure("A spoken price begins below the worked one by", "0", "50", unit="per cent")
    spoken_above_pct = Figure("and ends above it by", "0", "100", unit="per cent")
    terms = Line("Terms, as they stand on every quote; a blank line between paragraphs", 20_000, rows=10)

    bench_hours_a_day = Figure("Bench hours a working day", "0.5", "200", unit="hours", help_text=MEMORY)
    sellable_hours_a_week = Figure(
        "Bench hours a week that can be promised",
        "0.5",
        "1000",
        unit="hours",
        help_text="About 0.65 of the hours that builders are present, from memory.",
    )
    calendar_country = Choice(label="Public holidays of", required=False)
    calendar_region = Line("Region, by its code", 8, help_text="As in ISO 3166-2, without the country.")

    chance_floor = Share("An engine is good for as long as it finishes with", "50", "99.9", 1)
    rider_safety_ceiling = Share(
        "Parts that can lock the wheel or oil the tyre stop it in at most", "0.1", "50"
    )
    assembly_fault_chance = Share(
        "A fault of our own, for each assembly operation", "0", "5", 3, help_text=MEMORY
    )
    fault_cost = Figure("and putting it right costs us", "0", MONEY, help_text=MEMORY)
    session_loss = Figure("A session lost costs the customer", "0", MONEY, help_text=MEMORY)
    weekend_loss = Figure(
        "A weekend lost costs the customer",
        "0",
        MONEY,
        help_text=f"Entry, travel, nights. {MEMORY} It says at what age a part is best renewed.",
    )
    refuses_unsafe = forms.BooleanField(
        label="We do not build it so: no job leaves a rider-safety line out", required=False
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["calendar_country"]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [("", "no calendar"), *countries()]
        for name in ("consumables_least", "consumables_most", "fault_cost", "session_loss", "weekend_loss"):
            sum_field = self.fields[name]
            assert isinstance(sum_field, Figure)
            sum_field.unit = self.initial.get("currency", "")

    def clean_email(self) -> str:
        email: str = self.cleaned_data["email"]
        if email:
            try:
                validate_email(email)
            except ValidationError:
                raise ValidationError(
                    f"{quoted(email)} is not an address, such as desk@yard.example."
                ) from None
        return email

    def clean_currency(self) -> str:
        code: str = self.cleaned_data["currency"].strip().upper()
        if not is_currency(code):
            raise ValidationError(f"{quoted(code)} is not a currency's three letters, such as USD or EUR.")
        if get_currency_precision(code) > 2:
            raise ValidationError(f"{code} has coins below a hundredth, which can't be kept here.")
        return code

    def clean_books_kept_years(self) -> int:
        return int(self.cleaned_data["books_kept_years"])

    def clean_quote_validity_days(self) -> int:
        return int(self.cleaned_data["quote_validity_days"])

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        least, most = data.get("consumables_least"), data.get("consumables_most")
        if least is not None and most is not None and most < least:
            self.add_error(
                "consumables_most", f"“{most}” is below the least, {least}: it must be that or more."
            )
        self._check_region(data.get("calendar_country", ""), data.get("calendar_region", ""))
        return data

    def _check_region(self, country: str, region: str) -> None:
        known = regions(country)
        if region and region not in known:
            allowed = f"one of: {', '.join(known)}" if known else "a region: the calendar chosen has none"
            self.add_error("calendar_region", f"{quoted(region)} is not {allowed}.")


def countries() -> list[tuple[str, str]]:
    """Countries whose public holidays are known, by name."""
    import holidays  # a tenth of a second, and only this page needs it

    names = Locale("en").territories
    codes = (code for code in holidays.list_supported_countries(include_aliases=False) if len(code) == 2)
    return sorted(((code, names.get(code, code)) for code in codes), key=lambda pair: pair[1])


def regions(country: str) -> list[str]:
    """Codes of the regions whose own holidays are known."""
    import holidays

    return list(holidays.list_supported_countries(include_aliases=False).get(country, ()))
