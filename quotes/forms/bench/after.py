"""After the hand-over: what the customer reports, what is reminded of, and what failed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.books.fields import offer
from quotes.forms.figures import Figure, Line, NotLater, Picked, SettingsForm
from quotes.models import Outcome, ServiceUnit, WhoPays


class ServiceForm(SettingsForm):
    """What an engine has run since the hand-over, as a running total."""

    amount = Figure(
        _("How much has it run since you fetched it?"),
        "0",
        "100000",
        2,
        help_text=_("All of it since you fetched the engine, not only the last meeting"),
    )
    unit = Picked(label=_("In"), choices=ServiceUnit.choices)
    on = NotLater(_("Up to which day?"))
    over_rev_pct = Figure(
        _("Over-rev, how far past the limit"), "0", "100", 2, unit=_("per cent"), required=False
    )
    oil_used = Line(_("Oil used"), 120)
    filter_seen = Line(_("What was in the cut filter"), 300)
    note = Line(_("Anything else"), 1000, rows=3)
    name = Line(_("Your name"), 200, required=True)
    corrects = forms.BooleanField(label=_("This corrects what was reported last"), required=False)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["name"].widget.attrs["autocomplete"] = "name"
        self.fields["name"].error_messages["required"] = say("Nothing is given: say who reports it.")


class ReminderForm(SettingsForm):
    """A reminder, ready to send; what was sent is kept."""

    words = Line(_("What was sent"), 4000, rows=10, required=True)


class FailureForm(SettingsForm):
    """A comeback or a failure with the evidence and who pays."""

    component = Picked(label=_("Which part?"))
    place = Line(_("Where"), 80)
    words = Line(_("What happened?"), 1000, rows=3, required=True)
    outcome = Picked(label=_("The part"), choices=Outcome.choices)
    on = NotLater(_("On which day?"))
    opened_elsewhere = forms.BooleanField(label=_("It was opened elsewhere first"), required=False)
    seal_whole = forms.ChoiceField(
        label=_("Our seal"),
        choices=[("", _("there was none")), ("yes", _("is whole")), ("no", _("is broken"))],
        required=False,
    )
    evidence = Line(_("What the record, the photos, the logger and the seal say"), 1000, rows=3)
    who_pays = Picked(label=_("Who pays?"), choices=WhoPays.choices)
    shop_share_pct = Figure(_("Our share"), "0", "100", 2, unit=_("per cent"))
    settlement = Line(_("What was agreed"), 500)

    def seal(self) -> bool | None:
        """Whether the seal is whole; None where there was none."""
        said = self.cleaned_data["seal_whole"]
        return None if not said else said == "yes"


def failure_form(data: Any, components: Sequence[tuple[str, str]], **options: Any) -> FailureForm:
    form = FailureForm(data, prefix="failure", **options)
    offer(form, "component", [("", say("choose")), *components])
    return form
