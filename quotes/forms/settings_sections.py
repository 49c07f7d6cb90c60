"""The sections of the settings page, in the order in which it shows them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from django import forms
from django.utils.translation import gettext_lazy as _

from quotes.forms.settings_fields import WorkshopForm

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


@dataclass(frozen=True, slots=True)
class Section:
    """A margin heading with the fields that stand beside it; `rows` names lists that follow them."""

    title: StrOrPromise
    note: StrOrPromise
    fields: tuple[tuple[str, str], ...]
    rows: tuple[str, ...] = ()


SECTIONS = (
    Section(
        _("Who you are"),
        _("It stands at the head of every quote."),
        (
            ("name", "w6"),
            ("telephone", "w3"),
            ("email", "w3"),
            ("address", "w6"),
            ("tax_registration", "w3"),
            ("paper", "w3"),
        ),
    ),
    Section(
        _("Money and tax"),
        _("No table of places ships: write the codes that hold where you are. Ask someone licensed there."),
        (
            ("currency", "w3"),
            ("distance_unit", "w3"),
            ("tax_style", "w6"),
            ("prices_include_tax_in_talk", "w-all"),
        ),
        ("tax_codes",),
    ),
    Section(
        _("Labour"),
        _("Per hour before tax. Defaults: common practice, no source; level of 2026 from memory."),
        (),
        ("labour_rates",),
    ),
    Section(
        _("Parts and machine work"),
        _("Markup on what they cost you. No dearer part is ever sold for less."),
        (
            ("cap_at_list", "w6"),
            ("renew_policy_parts", "w6"),
            ("machine_work_markup_pct", "w3"),
            ("consumables_pct", "w3"),
            ("consumables_least", "w3"),
            ("consumables_most", "w3"),
        ),
        ("markup_bands",),
    ),
    Section(
        _("Quotes"),
        _("What you promise, and for how long."),
        (
            ("quote_validity_days", "w3"),
            ("deposit_pct", "w3"),
            ("limit_without_asking_pct", "w3"),
            ("hours_spread_pct", "w3"),
            ("spoken_below_pct", "w6"),
            ("spoken_above_pct", "w6"),
            ("books_kept_years", "w6"),
            ("terms", "w-all"),
        ),
    ),
    Section(
        _("Bench and calendar"),
        _("Saturdays and Sundays are always closed."),
        (
            ("bench_hours_a_day", "w3"),
            ("sellable_hours_a_week", "w3"),
            ("calendar_country", "w3"),
            ("calendar_region", "w3"),
        ),
        ("closed_days",),
    ),
    Section(
        _("Risk"),
        _("What the chances are reckoned with. They stand on every quote."),
        (
            ("chance_floor", "w3"),
            ("rider_safety_ceiling", "w6"),
            ("assembly_fault_chance", "w3"),
            ("fault_cost", "w3"),
            ("session_loss", "w3"),
            ("weekend_loss", "w3"),
            ("refuses_unsafe", "w6"),
        ),
    ),
    Section(
        _("Classes of racing"),
        _("Tick what a class allows. An option that does more is issued only with a tick that says so."),
        (),
        ("classes",),
    ),
)


def cells(form: WorkshopForm, section: Section) -> Iterator[tuple[forms.BoundField, str]]:
    """The section's fields, each with its width."""
    return ((form[name], width) for name, width in section.fields)
