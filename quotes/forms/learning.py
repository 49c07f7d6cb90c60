"""Forms of the lives: a strip-down of earlier years, a file of them, and the owner's reasons."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.utils.translation import gettext_lazy as _

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_figure
from quotes.actions.learning.by_hand import EarlierSet
from quotes.forms.books.fields import offer
from quotes.forms.figures import Figure, Line, NotLater, Picked, SettingsForm, as_of
from quotes.forms.upload import UploadForm

AMOUNT = ("0", "1000000", 2)
CHOSEN = ("type_code", "component", "duty", "tier", "outcome", "unit")


class EarlierForm(SettingsForm):
    """One set of a component, as somebody wrote it down."""

    component = Picked(label=_("Which part?"))
    type_code = Picked(label=_("Of which engine type?"))
    engine = Line(_("Which engine?"), 120, required=True, help_text=_("Its number, or how you know it."))
    on = NotLater(_("Seen on"))
    outcome = Picked(label=_("It was"))
    amount = Figure(_("It had run since new"), *AMOUNT)
    unit = Picked(label=_("In"))
    duty = Picked(label=_("In which duty?"))
    tier = Picked(label=_("In which tune?"))
    entry = Figure(
        _("Of that, run before anybody watched it"),
        *AMOUNT,
        required=False,
        help_text=_("Nothing where its whole life is known."),
    )
    seen_good_at = Figure(
        _("Last seen within its limit at"),
        *AMOUNT,
        required=False,
        help_text=_("Only where it was found past its limit."),
    )
    source = Line(_("Where is it written down?"), 300)

    def __init__(
        self, *args: Any, names: Mapping[str, Mapping[str, str]], today: date, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        for field in CHOSEN:
            offer(self, field, [("", say("choose")), *names[field].items()])
        as_of(self, today)

    def told(self) -> EarlierSet:
        """What was typed; once the form is valid."""
        data = dict(self.cleaned_data)
        return EarlierSet(**{**data, "entry": data["entry"] or ZERO})


class EvidenceFileForm(UploadForm):
    """A table of earlier strip-downs, or ages as JSON."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["file"].label = say("Workbook, CSV file or JSON")
        self.fields["file"].help_text = say(
            "An XLSX workbook, or a CSV file in UTF-8 or Windows-1252, or JSON as fit_life reads it, of at "
            "most {most} kB.",
            most=say_figure(self.most_bytes // 1000, 0),
        )


class ReasonForm(SettingsForm):
    """Why something is approved, taken back or withdrawn."""

    reason = Line(_("Why?"), 500, required=True, rows=2)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["reason"].error_messages["required"] = say("Nothing is given: say why.")


class WithdrawForm(SettingsForm):
    """Why a row of evidence is withdrawn."""

    because = Line(_("Why?"), 300, required=True)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["because"].error_messages["required"] = say("Nothing is given: say why.")
