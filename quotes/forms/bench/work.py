"""Machine work sent out and taken back, and a clock that was left running."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from quotes.calc.bench.parts.target_sizes import CheckedSize, Target
from quotes.calc.bench.said import exact
from quotes.forms.books.fields import offer
from quotes.forms.figures import Choice, Day, Figure, Line, Picked, SettingsForm
from quotes.forms.settings_rows import Row, Rows, rows_of

SIZE = ("-9999", "9999", 4)
BLANK = 4
NEEDED = {
    "name": to_say("Nothing is given: what is measured is needed."),
    "low": to_say("Nothing is given: a number is needed."),
    "high": to_say("Nothing is given: a number is needed."),
}


class SendOutForm(SettingsForm):
    """What goes out, to whom and by when."""

    machine_work = Picked(label=_("Which work?"))
    vendor = Line(_("To whom?"), 200)
    tag = Line(_("Tag on the part"), 40, required=True)
    quantity = Figure(_("How many?"), "0.001", "999", 3)
    sent_on = Day(_("Sent on"))
    expected_on = Day(_("Expected back"))
    slow_on = Day(_("At the latest"))
    goes_with = Line(_("What goes with it, one a line"), 1000, rows=3)
    words = Line(_("What is to be done, in words"), 1000, rows=3)

    def sent_along(self) -> tuple[str, ...]:
        """The lines of what goes with it."""
        return tuple(line.strip() for line in self.cleaned_data["goes_with"].splitlines() if line.strip())


class TargetRow(Row):
    """A size asked for; a row without a name is blank."""

    name = Line(_("Size"), 120)
    low = Figure(_("From"), *SIZE, required=False)
    high = Figure(_("To"), *SIZE, required=False)
    unit = Choice(label=_("Unit"), choices=[("mm", "mm"), ("µm", "µm"), ("in", "in"), ("cc", "cc")])

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        for name in ("name", "low", "high"):
            if data.get(name) in (None, "") and name not in self.errors:
                self.add_error(name, say(NEEDED[name]))
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

    on = Day(_("Back on"))
    tag = Line(_("Tag on the part"), 40, required=True)
    sound = Picked(
        label=_("Is it as it was asked for?"),
        choices=[("yes", _("yes, it is sound")), ("no", _("no, something is wrong"))],
        widget=forms.RadioSelect,
    )
    taken_off_mm = Figure(_("Taken off"), "0", "20", 4, unit="mm", required=False)
    cost = Figure(_("What they charge, before tax"), "0", "1000000", 2, required=False)
    note = Line(_("Note"), 500)

    def __init__(self, data: Any, targets: Sequence[Target], **options: Any) -> None:
        super().__init__(data, prefix="back", **options)
        self.targets = targets
        for number, target in enumerate(targets):
            label = say(
                "{name}, asked for {low} to {high}",
                name=target.name,
                low=exact(target.low),
                high=exact(target.high),
            )
            self.fields[f"size_{number}"] = Figure(label, *SIZE, unit=target.unit, required=False)

    def sizes(self) -> list[Any]:
        """The fields of the sizes, for the page."""
        return [self[f"size_{number}"] for number in range(len(self.targets))]

    def checked(self) -> tuple[CheckedSize, ...]:
        """What was measured."""
        values = ((t.name, self.cleaned_data.get(f"size_{n}")) for n, t in enumerate(self.targets))
        return tuple(CheckedSize(name=name, value=value) for name, value in values if value is not None)


class SettleForm(SettingsForm):
    """How long the work really took, where a clock was left running."""

    hours = Figure(_("How long did it really take?"), "0", "24", 2, unit="h")
    words = Line(_("What happened?"), 200, required=True)


def send_out_form(data: Any, works: Sequence[tuple[str, str]], initial: Mapping[str, Any]) -> SendOutForm:
    form = SendOutForm(data, prefix="out", initial=dict(initial))
    offer(form, "machine_work", [("", say("choose")), *works])
    return form
