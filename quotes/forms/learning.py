"""Forms of the lives: a strip-down of earlier years, a file of them, and the owner's reasons."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from catalogue.calc.money import ZERO
from quotes.actions.learning.by_hand import Earlier
from quotes.forms.books.fields import offer
from quotes.forms.books.payment import NotLater, Picked
from quotes.forms.figures import Figure, Line, SettingsForm
from quotes.forms.upload import UploadForm
from quotes.imports.cells import KINDS

AMOUNT = ("0", "1000000", 2)
CHOSEN = ("type_code", "component", "duty", "tier", "outcome", "unit")


class EarlierForm(SettingsForm):
    """One set of a component, as somebody wrote it down."""

    component = Picked(label="Which part?")
    type_code = Picked(label="Of which engine type?")
    engine = Line("Which engine?", 120, required=True, help_text="Its number, or how you know it.")
    on = NotLater("Seen on")
    outcome = Picked(label="It was")
    amount = Figure("It had run since new", *AMOUNT)
    unit = Picked(label="In")
    duty = Picked(label="In which duty?")
    tier = Picked(label="In which tune?")
    entry = Figure(
        "Of that, run before anybody watched it",
        *AMOUNT,
        required=False,
        help_text="Nothing where its whole life is known.",
    )
    seen_good_at = Figure(
        "Last seen within its limit at",
        *AMOUNT,
        required=False,
        help_text="Only where it was found past its limit.",
    )
    source = Line("Where is it written down?", 300)

    def __init__(
        self, *args: Any, names: Mapping[str, Mapping[str, str]], today: date, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        for field in CHOSEN:
            offer(self, field, [("", "choose"), *names[field].items()])
        self.fields["on"].today = today  # type: ignore[attr-defined]

    def told(self) -> Earlier:
        """What was typed; once the form is valid."""
        data = dict(self.cleaned_data)
        return Earlier(**{**data, "entry": data["entry"] or ZERO})


class EvidenceFileForm(UploadForm):
    """A table of earlier strip-downs, or ages as JSON."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["file"].label = "Workbook, CSV file or JSON"
        allowed = f"{KINDS[0].upper()}{KINDS[1:]}, or JSON as fit_life reads it"
        self.fields["file"].help_text = f"{allowed}, of at most {self.most_bytes // 1000:,} kB."


class ReasonForm(SettingsForm):
    """Why something is approved, taken back or withdrawn."""

    reason = Line("Why?", 500, required=True, rows=2)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["reason"].error_messages["required"] = "Nothing is given: say why."


class WithdrawForm(SettingsForm):
    """Why a row of evidence is withdrawn."""

    because = Line("Why?", 300, required=True)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["because"].error_messages["required"] = "Nothing is given: say why."
