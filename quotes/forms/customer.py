"""What a customer says on the page: yes to one option, a question, or no."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from quotes.calc.money.extras import extras_of
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.values import Option
from quotes.documents.customer_sheet import limit_note
from quotes.documents.reasons import leaves_safety
from quotes.forms.figures import Choice, Figure, Line, SettingsForm

NONE_YET = "none"
RING_ME = to_say("None of these yet: please ring me.")
MOST = "9999999.99"
RIGHTS = (
    to_say("owner of the engine"),
    to_say("rider, with the owner's leave"),
    to_say("for the team, with leave from the payer"),
    to_say("payer"),
)
FIELD_OF = {"tier": "option", "limit_sum": "limit", "agreed_terms": "terms"}
"""Where a fault that the record finds stands on the page."""


class YesForm(SettingsForm):
    """The yes. Nothing is picked or ticked beforehand; extras are ticked under their own option."""

    shown = forms.CharField(required=False)
    """The revision that stood on the page: a yes to an older one is no yes to the latest."""
    option = forms.CharField(label=_("Which one?"), required=False)
    name = Line(_("Your name"), 200, required=True)
    right = Choice(label=_("I say yes as"), choices=(), required=False)
    limit = Figure(_("More that we may spend without asking"), "0", MOST)
    telephone = Line(_("Telephone on the day"), 40)
    safety = forms.BooleanField(label=_("What is left as it is"), required=False)
    terms = forms.BooleanField(label=_("Cautions and terms"), required=False)

    def __init__(self, sheet: Sheet, data: Any = None) -> None:
        self.sheet = sheet
        super().__init__(data, prefix="yes", initial={"limit": "0.00"})
        right = self.fields["right"]
        assert isinstance(right, Choice)
        right.choices = [("", say("Choose")), *((each, say(each)) for each in RIGHTS)]
        self.fields["name"].widget.attrs["autocomplete"] = "name"
        self.fields["name"].error_messages["required"] = say(
            "Nothing is given: we need to know who says yes."
        )
        self.fields["limit"].help_text = limit_note(sheet)
        self.fields["telephone"].widget.attrs |= {"type": "tel", "autocomplete": "tel"}
        for option in sheet.comparison.options:
            offered = [(extra.component, extra.name) for extra in extras_of(option)]
            self.fields[extras_field(option.tier)] = forms.MultipleChoiceField(
                choices=offered, required=False
            )

    @property
    def picked(self) -> str:
        """The tier picked, NONE_YET, or nothing; also before the form has been checked."""
        return str(self["option"].value() or "")

    @property
    def picked_option(self) -> Option | None:
        return next((each for each in self.sheet.comparison.options if each.tier == self.picked), None)

    def ticked(self, tier: str) -> Sequence[str]:
        """Extras ticked under one option, for showing them again."""
        return list(self[extras_field(tier)].value() or ())

    @property
    def extras(self) -> Sequence[str]:
        """Extras of the option that was picked; what is ticked under another one does not count."""
        option = self.picked_option
        return self.cleaned_data[extras_field(option.tier)] if option else ()

    def clean_option(self) -> str:
        picked = str(self.cleaned_data["option"])
        known = [option.tier for option in self.sheet.comparison.options]
        if picked not in (*known, NONE_YET):
            raise ValidationError(say("Nothing is picked: pick one of the ways, or that we ring you."))
        return picked

    def clean(self) -> dict[str, Any]:
        given = super().clean() or {}
        if given.get("option") == NONE_YET:
            self._clean_ring(given)
        elif "option" in given:
            self._clean_yes(given)
        return given

    def _clean_ring(self, given: dict[str, Any]) -> None:
        if not given.get("telephone") and "telephone" not in self.errors:
            self.add_error("telephone", say("Nothing is given: we need a number to ring you on."))

    def _clean_yes(self, given: dict[str, Any]) -> None:
        if not given.get("right") and "right" not in self.errors:
            self.add_error(
                "right", say("Nothing is picked. It can be: {rights}.", rights=", ".join(map(say, RIGHTS)))
            )
        if not given["terms"]:
            self.add_error("terms", say("Not ticked: a yes counts only with the terms."))
        if self.picked_option and leaves_safety(self.picked_option) and not given["safety"]:
            self.add_error(
                "safety", say("Not ticked: parts that can lock the wheel or oil the tyre are left.")
            )

    def tell(self, wrong: ValidationError) -> None:
        """Put the faults that the record finds at their fields."""
        for field, faults in wrong.message_dict.items():
            at = FIELD_OF.get(field, field)
            self.add_error(at if at in self.fields else None, faults)

    @property
    def limit_sum(self) -> Decimal:
        return Decimal(self.cleaned_data["limit"])


class AskForm(SettingsForm):
    """A question about the quote."""

    text = Line(_("What would you like to know?"), 4000, rows=4, required=True)
    name = Line(_("Your name"), 200, required=True)

    def __init__(self, data: Any = None) -> None:
        super().__init__(data, prefix="ask")
        self.fields["name"].widget.attrs["autocomplete"] = "name"


class DeclineForm(SettingsForm):
    """A no, with its reason if one likes to tell."""

    text = Line(_("Why not, if you like to tell"), 4000, rows=3)
    name = Line(_("Your name"), 200, required=True)

    def __init__(self, data: Any = None) -> None:
        super().__init__(data, prefix="no")
        self.fields["name"].widget.attrs["autocomplete"] = "name"


def extras_field(tier: str) -> str:
    return f"extras_{tier}"
