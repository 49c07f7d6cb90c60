"""The workshop's own fields on the settings page."""

from __future__ import annotations

from typing import Any

from babel import Locale
from babel.numbers import get_currency_precision, is_currency
from django import forms
from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.utils.translation import get_language
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Figure, Line, SettingsForm, Share
from quotes.models import DistanceUnit, Paper, TaxStyle

MONEY = "9999999.99"
PRACTICE = _("Default: common practice, no source.")
MEMORY = _("Default: from memory.")


class WorkshopForm(SettingsForm):
    """Every field is named as the workshop's own."""

    name = Line(_("Name of the workshop"), 120, required=True)
    address = Line(_("Address, as it is printed"), 400, rows=3)
    telephone = Line(_("Telephone"), 40)
    email = Line(_("Email"), 254)
    tax_registration = Line(_("Tax registration"), 40)
    paper = Choice(label=_("Paper"), choices=Paper.choices)
    currency = Line(_("Currency, by its three letters"), 3, required=True, help_text=_("Such as USD or EUR."))
    distance_unit = Choice(label=_("Distances are in"), choices=DistanceUnit.choices)
    prices_include_tax_in_talk = forms.BooleanField(label=_("Prices said aloud hold the tax"), required=False)
    tax_style = Choice(label=_("Kind of tax"), choices=TaxStyle.choices)

    machine_work_markup_pct = Figure(
        _("Markup on machine work"),
        "0",
        "200",
        unit=_("per cent"),
        help_text=_("Default: common practice, no source. Usual: 10 to 25."),
    )
    cap_at_list = forms.BooleanField(label=_("No part is sold above its list price"), required=False)
    renew_policy_parts = forms.BooleanField(
        label=_("Parts whose re-use is our choice are renewed whenever disturbed"), required=False
    )
    consumables_pct = Figure(_("Consumables, of labour"), "0", "100", unit=_("per cent"), help_text=PRACTICE)
    consumables_least = Figure(_("Consumables, at least"), "0", MONEY, help_text=PRACTICE)
    consumables_most = Figure(_("Consumables, at most"), "0", MONEY, help_text=PRACTICE)

    deposit_pct = Figure(
        _("Deposit at the yes, of the sum with tax"), "0", "100", unit=_("per cent"), help_text=PRACTICE
    )
    quote_validity_days = Figure(_("A quote stands for"), "1", "365", 0, unit=_("days"), help_text=PRACTICE)
    books_kept_years = Figure(
        _("Books are kept, after their year, for"),
        "1",
        "50",
        0,
        unit=_("years"),
        help_text=_("Common practice; ask your tax adviser. A customer is erased within it."),
    )
    limit_without_asking_pct = Figure(
        _("We may go above it without asking by"), "0", "100", unit=_("per cent"), help_text=PRACTICE
    )
    hours_spread_pct = Figure(_("Hours before the strip-down, give or take"), "0", "100", unit=_("per cent"))
    spoken_below_pct = Figure(
        _("A spoken price begins below the worked one by"), "0", "50", unit=_("per cent")
    )
    spoken_above_pct = Figure(_("and ends above it by"), "0", "100", unit=_("per cent"))
    terms = Line(_("Terms, as they stand on every quote; a blank line between paragraphs"), 20_000, rows=10)

    bench_hours_a_day = Figure(
        _("Bench hours a working day"), "0.5", "200", unit=_("hours"), help_text=MEMORY
    )
    sellable_hours_a_week = Figure(
        _("Bench hours a week that can be promised"),
        "0.5",
        "1000",
        unit=_("hours"),
        help_text=_("About 0.65 of the hours that builders are present, from memory."),
    )
    calendar_country = Choice(label=_("Public holidays of"), required=False)
    calendar_region = Line(_("Region, by its code"), 8, help_text=_("As in ISO 3166-2, without the country."))

    chance_floor = Share(_("An engine is good for as long as it finishes with"), "50", "99.9", 1)
    rider_safety_ceiling = Share(
        _("Parts that can lock the wheel or oil the tyre stop it in at most"), "0.1", "50"
    )
    assembly_fault_chance = Share(
        _("A fault of our own, for each assembly operation"), "0", "5", 3, help_text=MEMORY
    )
    fault_cost = Figure(_("and putting it right costs us"), "0", MONEY, help_text=MEMORY)
    session_loss = Figure(_("A session lost costs the customer"), "0", MONEY, help_text=MEMORY)
    weekend_loss = Figure(
        _("A weekend lost costs the customer"),
        "0",
        MONEY,
        help_text=_(
            "Entry, travel, nights. Default: from memory. It says at what age a part is best renewed."
        ),
    )
    refuses_unsafe = forms.BooleanField(
        label=_("We do not build it so: no job leaves a rider-safety line out"), required=False
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["calendar_country"]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [("", say("no calendar")), *countries()]
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
                    say("{email} is not an address, such as desk@yard.example.", email=quoted(email))
                ) from None
        return email

    def clean_currency(self) -> str:
        code: str = self.cleaned_data["currency"].strip().upper()
        if not is_currency(code):
            raise ValidationError(
                say("{code} is not a currency's three letters, such as USD or EUR.", code=quoted(code))
            )
        if get_currency_precision(code) > 2:
            raise ValidationError(
                say("{code} has coins below a hundredth, which can't be kept here.", code=code)
            )
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
                "consumables_most",
                say("“{most}” is below the least, {least}: it must be that or more.", most=most, least=least),
            )
        self._check_region(data.get("calendar_country", ""), data.get("calendar_region", ""))
        return data

    def _check_region(self, country: str, region: str) -> None:
        known = regions(country)
        if region and region not in known:
            said = say("{typed} is not a region: the calendar chosen has none.", typed=quoted(region))
            if known:
                said = say(
                    "{typed} is not one of: {offered}.", typed=quoted(region), offered=", ".join(known)
                )
            self.add_error("calendar_region", said)


def countries() -> list[tuple[str, str]]:
    """Countries whose public holidays are known, by name."""
    import holidays  # a tenth of a second, and only this page needs it

    names = Locale(get_language() or "en").territories
    codes = (code for code in holidays.list_supported_countries(include_aliases=False) if len(code) == 2)
    return sorted(((code, names.get(code, code)) for code in codes), key=lambda pair: pair[1])


def regions(country: str) -> list[str]:
    """Codes of the regions whose own holidays are known."""
    import holidays

    return list(holidays.list_supported_countries(include_aliases=False).get(country, ()))
