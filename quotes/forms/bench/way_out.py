"""Tests, the last look, the release, and how each engine type is run in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, cast

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.actions.bench.releasing import OLD_PARTS, HandedOver
from quotes.actions.bench.testing import Looked, RunResults
from quotes.calc.bench.leaving.final_questions import IN_WORDS, QUESTIONS, Question, Said
from quotes.calc.bench.leaving.powers import PEAK_POWER
from quotes.calc.bench.leaving.running_in import BORE_IN_WORDS, RINGS_IN_WORDS, RunningInFigures
from quotes.forms.figures import Choice, Figure, Line, NotLater, Picked, SettingsForm, plain
from quotes.forms.seen import SeenForm
from quotes.forms.settings_rows import Row, Rows, rows_of
from quotes.models import ServiceUnit
from quotes.queries.bench.ages.new_lives import NewLife
from quotes.queries.bench.leaving.way_out import POWER_AFTER, POWER_BEFORE

UNITS = (
    "kW",
    "hp",
    "PS",
    "Nm",
    "lb ft",
    "rpm",
    "bar",
    "psi",
    "kPa",
    "%",
    "°C",
    "°F",
    "min",
    "h",
    "mi",
    "km",
    "",
)
POWER_ROWS = ((PEAK_POWER, "kW"), ("at", "rpm"), ("Peak torque", "Nm"), ("at", "rpm"))
OIL_ROWS = (("Oil pressure hot, at tickover", "bar"), ("Oil pressure hot, at revs", "bar"), ("at", "rpm"))
RUN_ROWS = (("Run for", "min"), ("Oil temperature", "°C"))
BLANK = 2


class ValueRow(Row):
    """A figure with its name and unit; a row without a figure is no row."""

    name = Line(_("What"), 80)
    figure = Figure(_("Figure"), "-99999", "99999", 3, required=False)
    unit = Choice(label=_("Unit"), choices=[(unit, unit or _("no unit")) for unit in UNITS], required=False)

    def has_changed(self) -> bool:
        return bool(str(self["figure"].data or "").strip())

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("name") and "name" not in self.errors:
            self.add_error("name", say("Nothing is given: say what was measured."))
        return data

    def value(self) -> tuple[str, str, str]:
        data = self.cleaned_data
        return (data["name"], plain(data["figure"]), data["unit"])


ValueRows: type[Rows] = rows_of(ValueRow, "", extra=0)


def value_rows(data: Mapping[str, Any] | None, name: str, cylinders: int) -> Rows:
    """Rows for what is usually written down of a test."""
    usual: Sequence[tuple[str, str]] = {
        POWER_BEFORE: POWER_ROWS,
        POWER_AFTER: POWER_ROWS,
        "Running-in": RUN_ROWS,
        "Oil pressure hot": OIL_ROWS,
        "Leak-down after": [(f"Cylinder {number}", "%") for number in range(1, cylinders + 1)],
    }.get(name, ())
    blank = [{"name": what, "unit": unit} for what, unit in [*usual, *[("", "")] * BLANK]]
    return ValueRows(data, prefix="value", initial=None if data else blank)


class RunForm(SettingsForm):
    """What was run, where and when."""

    name = Line(_("Which test?"), 120, required=True)
    on = NotLater(_("On which day?"))
    dyno = Line(_("Dyno"), 120)
    correction = Line(_("Corrected by"), 60, help_text=_("The standard, as the dyno's printout names it."))
    note = Line(_("Note"), 500, rows=3)

    def __init__(self, data: Any, today: date, **options: Any) -> None:
        super().__init__(data, prefix="run", **options)
        cast(NotLater, self.fields["on"]).today = today

    def run(self, rows: Rows) -> RunResults:
        told = self.cleaned_data
        return RunResults(
            name=told["name"],
            on=told["on"],
            values=tuple(row.value() for row in rows.standing()),
            dyno=told["dyno"],
            correction=told["correction"],
            note=told["note"],
        )


class QuestionFields:
    """One question with its two fields, for the page."""

    def __init__(self, question: Question, said: Any, note: Any) -> None:
        self.question, self.said, self.note = question, said, note


class CheckForm(SettingsForm):
    """The last look: every question, and whether what was agreed is really new."""

    rings = Picked(
        label=_("Rings"),
        choices=[("", _("choose")), *((code, _(words)) for code, words in RINGS_IN_WORDS.items())],
    )
    bore = Picked(
        label=_("Bore"),
        choices=[("", _("choose")), *((code, _(words)) for code, words in BORE_IN_WORDS.items())],
    )
    note = Line(_("Note"), 500, rows=2)

    def __init__(self, data: Any, lives: Sequence[NewLife], **options: Any) -> None:
        super().__init__(data, prefix="check", **options)
        self.lives = lives
        for one in QUESTIONS:
            self.fields[one.code] = Choice(
                label=say(one.words),
                choices=[(said, say(words)) for said, words in IN_WORDS.items() if said],
                widget=forms.RadioSelect,
                required=False,
            )
            self.fields[f"note_{one.code}"] = Line(say("Said with it"), 200)
        for life in lives:
            self.fields[f"new_{life.component}"] = forms.BooleanField(
                label=life.name if life.level == "new" else say("{name}, reconditioned", name=life.name),
                required=False,
                initial=not life.doubt,
                help_text=life.doubt,
            )

    def asked(self) -> list[QuestionFields]:
        return [QuestionFields(one, self[one.code], self[f"note_{one.code}"]) for one in QUESTIONS]

    def ticks(self) -> list[Any]:
        return [self[f"new_{life.component}"] for life in self.lives]

    def looked(self) -> Looked:
        told = self.cleaned_data
        return Looked(
            said={one.code: cast(Said, told[one.code]) for one in QUESTIONS},
            notes={one.code: told[f"note_{one.code}"] for one in QUESTIONS},
            done=tuple(life.component for life in self.lives if told[f"new_{life.component}"]),
            rings=told["rings"],
            bore=told["bore"],
            note=told["note"],
        )


class ReleaseForm(SettingsForm):
    """To whom it goes, under which seal, and what becomes of the old parts."""

    released_to = Line(_("Handed to? Full name"), 200, required=True)
    shown = Line(
        _("What did he show?"),
        200,
        required=True,
        help_text=_("A paper with his name, or that he is known here."),
    )
    seal = Line(_("Seal number"), 60)
    old_parts = Picked(
        label=_("Old parts"),
        choices=[("", _("choose")), *((code, _(words)) for code, words in OLD_PARTS.items())],
    )
    unpaid_consent = Line(_("The owner's word for letting it go unpaid"), 300, rows=2)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, prefix="release", **options)

    def given(self) -> HandedOver:
        return HandedOver(**self.cleaned_data)


class RunningInForm(SeenForm):
    """Running-in of one engine type; a press of its own goes back to common practice."""

    unit = Picked(label=_("Told in"), choices=[("", _("choose")), *ServiceUnit.choices])
    rev_limit_pct = Figure(_("Kept under, of the rev limit"), "20", "100", 0, unit=_("per cent"))
    revs_until = Figure(_("Kept under it until"), "0", "10000", 2)
    oil_at = Figure(_("First oil and filter change at"), "0", "10000", 2)
    recheck_at = Figure(_("Look again at head bolts and valves at"), "0", "10000", 2, required=False)
    manual = Line(_("Maker's manual, by its title"), 200, help_text=_("Empty: the workshop's own practice."))
    page = Line(_("Page"), 40)
    words = Line(_("What comes first on the card, one a line"), 1000, rows=4)

    def given(self) -> RunningInFigures:
        told = dict(self.cleaned_data)
        told["rev_limit_pct"] = int(told["rev_limit_pct"])
        return RunningInFigures(**told)
