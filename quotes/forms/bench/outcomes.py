"""How a build's service went, and the owner's word on the factor."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.books.fields import offer
from quotes.forms.figures import Choice, Figure, Line, NotLater, Picked, SettingsForm
from quotes.models import ServiceEnd, ServiceOutcome


class OutcomeForm(SettingsForm):
    """Whether the engine stopped inside the service that it was sold for, and how far it had run."""

    end = Picked(label=_("What became of it?"), choices=[("", _("choose")), *ServiceEnd.choices])
    ran = Figure(_("How far did it run?"), "0", "100000", 2, required=False)
    stopped_by = Choice(label=_("What stopped it?"), required=False)
    on = NotLater(_("On which day was it told?"))
    told_by = Line(_("Who says so?"), 200)
    note = Line(_("Anything else"), 500, rows=2)


def outcome_form(data: Any, components: Sequence[tuple[str, str]], unit: str, **options: Any) -> OutcomeForm:
    """`unit` is that of the planned service, in words."""
    form = OutcomeForm(data, prefix="outcome", **options)
    ours = (ServiceOutcome.OWN_HANDS, say("a fault of our own in assembly"))
    offer(form, "stopped_by", [("", say("not known")), ours, *components])
    ran = form.fields["ran"]
    assert isinstance(ran, Figure)
    ran.unit = unit
    ran.help_text = say("Since the build left. Where it stopped, up to the stop; nothing where nobody knows.")
    return form


class BecauseForm(SettingsForm):
    """Why something is taken back."""

    because = Line(_("Why is it taken back?"), 300, required=True)


class FactorForm(SettingsForm):
    """Another factor, to see what it would do."""

    factor = Figure(_("Every risk is multiplied by"), "0.1", "10", 3)


class FactorReasonForm(FactorForm):
    """The same with the owner's reason: it is kept with his name and the day."""

    reason = Line(_("Why?"), 500, required=True, rows=2)
