"""How a build's service went, and the owner's word on the factor."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from quotes.forms.books.fields import offer
from quotes.forms.books.payment import NotLater, Picked
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.models import ServiceEnd, ServiceOutcome

STOPPED_BY = [("", "not known"), (ServiceOutcome.OWN_HANDS, "a fault of our own in assembly")]


class OutcomeForm(SettingsForm):
    """Whether the engine stopped inside the service that it was sold for, and how far it had run."""

    end = Picked(label="What became of it?", choices=[("", "choose"), *ServiceEnd.choices])
    ran = Figure("How far did it run?", "0", "100000", 2, required=False)
    stopped_by = Choice(label="What stopped it?", required=False)
    on = NotLater("On which day was it told?")
    told_by = Line("Who says so?", 200)
    note = Line("Anything else", 500, rows=2)


def outcome_form(data: Any, components: Sequence[tuple[str, str]], unit: str, **options: Any) -> OutcomeForm:
    """`unit` is that of the planned service, in words."""
    form = OutcomeForm(data, prefix="outcome", **options)
    offer(form, "stopped_by", [*STOPPED_BY, *components])
    ran = form.fields["ran"]
    assert isinstance(ran, Figure)
    ran.unit = unit
    ran.help_text = "Since the build left. Where it stopped, up to the stop; nothing where nobody knows."
    return form


class BecauseForm(SettingsForm):
    """Why something is taken back."""

    because = Line("Why is it taken back?", 300, required=True)


class FactorForm(SettingsForm):
    """Another factor, to see what it would do."""

    factor = Figure("Every risk is multiplied by", "0.1", "10", 3)


class FactorReasonForm(FactorForm):
    """The same with the owner's reason: it is kept with his name and the day."""

    reason = Line("Why?", 500, required=True, rows=2)
