"""The cells of an enquiry card beside the request, and the reason why something is given up."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as _

from quotes.actions.enquiry import EnquiryDetails
from quotes.forms.figures import Day, Figure, Line, SettingsForm
from quotes.models import Enquiry

MOST_MONEY = "9999999.99"


class DetailsForm(SettingsForm):
    """What a call tells besides the request, in the order of the call."""

    caller = Line(_("Who called?"), 200)
    needed_on = Day(_("Needed on"), required=False)
    budget = Figure(_("Budget, with tax, at most"), "0.01", MOST_MONEY, required=False)
    who_pays = Line(_("Who pays?"), 200)
    fuel = Line(_("What fuel?"), 80)
    class_rules = Line(_("What do the class rules say?"), 200)
    symptoms = Line(_("What does it do? Symptoms, over-revs, crashes"), 2000, rows=3)
    note = Line(_("Note"), 2000, rows=3)

    WIDTHS = (
        ("caller", "w3"),
        ("needed_on", "w3"),
        ("budget", "w3"),
        ("who_pays", "w3"),
        ("fuel", "w4"),
        ("class_rules", "w8"),
        ("symptoms", "w6"),
        ("note", "w6"),
    )

    @classmethod
    def of(cls, enquiry: Enquiry, data: Any = None) -> DetailsForm:
        """The card as it is kept, or as it was typed."""
        return cls(data, initial={name: getattr(enquiry, name) for name in cls.base_fields})

    @property
    def cells(self) -> list[tuple[Any, str]]:
        return [(self[name], width) for name, width in self.WIDTHS]

    def details(self) -> EnquiryDetails:
        return EnquiryDetails(**self.cleaned_data)


class ReasonForm(SettingsForm):
    """Why an enquiry is dropped, or a booking cancelled."""

    because = Line(_("Why?"), 300, required=True)


class AgreedForm(SettingsForm):
    """Who agreed to the terms, and on what day."""

    agreed_by = Line(_("Who agreed to the terms?"), 200, required=True)
    on = Day(_("On what day?"))
