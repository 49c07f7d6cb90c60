"""Machine work sent out and taken back, and a clock that was left running."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from quotes.calc.bench.target_sizes import Checked, Target
from quotes.forms.books.fields import offer
from quotes.forms.books.payment import Picked
from quotes.forms.figures import Choice, Day, Figure, Line, SettingsForm
from quotes.forms.settings_rows import Row, Rows, rows_of

SIZE = ("-9999", "9999", 4)
BLANK = 4


class SendOutForm(SettingsForm):
    """What goes out, to whom and by when."""

    machine_work = Picked(label="Which work?")
    vendor = Line("To whom?", 200)
    tag = Line("Tag on the part", 40, required=True)
    quantity = Figure("How many?", "0.001", "999", 3)
    sent_on = Day("Sent on")
    expected_on = Day("Expected back")
    slow_on = Day("At the latest")
    goes_with = Line("What goes with it, one a line", 1000, rows=3)
    words = Line("What is to be done, in words", 1000, rows=3)

    def sent_along(self) -> tuple[str, ...]:
        """The lines of what goes with it."""
        return tuple(line.strip() for line in self.cleaned_data["goes_with"].splitlines() if line.strip())


class TargetRow(Row):
    """A size asked for; a row without a name is blank."""

    name = Line("Size", 120)
    low = Figure("From", *SIZE, required=False)
    high = Figure("To", *SIZE, required=False)
    unit = Choice(label="Unit", choices=[("mm", "mm"), ("µm", "µm"), ("in", "in"), ("cc", "cc")])

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        for name, wanted in (("name", "what is measured"), ("low", "a number"), ("high", "a number")):
            if data.get(name) in (None, "") and name not in self.errors:
                self.add_error(name, f"Nothing is given: {wanted} is needed.")
        return data

    def value(self) -> Target:
        data = self.cleaned_data
        return Target(name=data["name"], low=data["low"], high=data["high"], unit=data["unit"])


TargetRows: type[Rows] = rows_of(TargetRow, "", extra=0)


def target_rows(data: Mapping[str, Any] | None) -> Rows:
    blank = [{"unit": "mm"} for _ in range(BLANK)]
    return TargetRows(data, prefix="target", initial=None if data else blank)


class TakeBackForm(SettingsForm):
    """The incoming check: one field for each size asked for."""

    on = Day("Back on")
    tag = Line("Tag on the part", 40, required=True)
    sound = Picked(
        label="Is it as it was asked for?",
        choices=[("yes", "yes, it is sound"), ("no", "no, something is wrong")],
        widget=forms.RadioSelect,
    )
    taken_off_mm = Figure("Taken off", "0", "20", 4, unit="mm", required=False)
    cost = Figure("What they charge, before tax", "0", "1000000", 2, required=False)
    note = Line("Note", 500)

    def __init__(self, data: Any, targets: Sequence[Target], **options: Any) -> None:
        super().__init__(data, prefix="back", **options)
        self.targets = targets
        for number, target in enumerate(targets):
            label = f"{target.name}, asked for {target.low:f} to {target.high:f}"
            self.fields[f"size_{number}"] = Figure(label, *SIZE, unit=target.unit, required=False)

    def sizes(self) -> list[Any]:
        """The fields of the sizes, for the page."""
        return [self[f"size_{number}"] for number in range(len(self.targets))]

    def checked(self) -> tuple[Checked, ...]:
        """What was measured."""
        values = ((t.name, self.cleaned_data.get(f"size_{n}")) for n, t in enumerate(self.targets))
        return tuple(Checked(name=name, value=value) for name, value in values if value is not None)


class SettleForm(SettingsForm):
    """How long the work really took, where a clock was left running."""

    hours = Figure("How long did it really take?", "0", "24", 2, unit="h")
    words = Line("What happened?", 200, required=True)


def send_out_form(data: Any, works: Sequence[tuple[str, str]], initial: Mapping[str, Any]) -> SendOutForm:
    form = SendOutForm(data, prefix="out", initial=dict(initial))
    offer(form, "machine_work", [("", "choose"), *works])
    return form
