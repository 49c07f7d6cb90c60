"""The parts of the new-quote card, in the order of a phone call."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from quotes.calc.ask.request import Unit
from quotes.forms.fields import CardForm, choice, day, figure, number, text, tick
from quotes.forms.offered import Offered, Season

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

ASK = ("", _("choose"))

SHORT_UNITS: list[tuple[Unit, StrOrPromise]] = [
    ("mi", _("miles")),
    ("km", "km"),
    ("h", _("hours")),
    ("runs", _("runs")),
]


class OfferedForm(CardForm):
    """A part whose choices come from catalogue and workshop."""

    def __init__(self, data: Any, offered: Offered, prefix: str | None = None) -> None:
        super().__init__(data, prefix=prefix, label_suffix="")
        self.offered = offered
        self.offer()

    def offer(self) -> None:
        """Fill in the choices."""

    def choices(self, name: str, pairs: Any, first: tuple[str, StrOrPromise] | None = ASK) -> None:
        widget = self.fields[name].widget
        assert isinstance(widget, forms.Select)
        widget.choices = [*([first] if first else []), *pairs]


class EnginePart(OfferedForm):
    """The engine that is talked about."""

    type = choice(_("Which engine type?"))
    number = text(_("Engine number"), maxlength="120")
    delivered = choice(_("Comes to us"), [("loose", _("loose")), ("in_chassis", _("in the chassis"))])
    fitted = choice(_("Tune fitted now"))

    def offer(self) -> None:
        self.choices("type", self.offered.engine_types)
        self.choices("fitted", self.offered.tiers, ("", _("as it last ran")))


class PastPart(OfferedForm):
    """Whether anything is known of the engine's past."""

    KNOWN, UNKNOWN, NEW = "run", "unknown", "new"
    past = forms.CharField(
        label=_("What has it done?"),
        required=False,
        widget=forms.RadioSelect(
            choices=[
                (KNOWN, _("it has run, as below")),
                (UNKNOWN, _("not known")),
                (NEW, _("new, has not run")),
            ]
        ),
    )


class DutySelect(forms.Select):
    """A choice of duty; each option carries its own season, for the script that fills it in."""

    seasons: dict[str, Season] = {}

    def create_option(self, name: str, value: Any, *args: Any, **more: Any) -> dict[str, Any]:
        option = super().create_option(name, value, *args, **more)
        if season := self.seasons.get(str(value)):
            told = {"amount": season.amount, "unit": season.unit, "each": season.each}
            option["attrs"] |= {"data-events": str(season.events)}
            option["attrs"] |= {f"data-{key}": said for key, said in told.items()}
        return option


class PlannedPart(OfferedForm):
    """The season to come."""

    duty = choice(_("What is it for now?"))
    events = number(_("Meetings"), whole=True)
    amount = number(_("How far this season?"))
    unit = choice(_("Unit"), SHORT_UNITS)
    first_meeting = day(_("First meeting"))
    checks = choice(
        _("Looked over"),
        [("each_meeting", _("at each meeting")), ("each_season", _("once a season")), ("never", _("never"))],
    )

    def offer(self) -> None:
        widget = DutySelect()
        widget.seasons = self.offered.seasons
        self.fields["duty"].widget = widget
        widget.attrs["aria-describedby"] = "id_duty_error id_season_note"
        self.choices("duty", self.offered.duties)

    @property
    def season(self) -> Season | None:
        return self.offered.seasons.get(self.typed("duty"))


class AimPart(OfferedForm):
    """What is asked of the sums: an aim or a budget, a class, the whole refresh list."""

    IN_TWENTY, PER_CENT = "in_20", "per_cent"
    aim = number(_("Aim to finish"))
    aim_as = choice(_("Counted"), [(IN_TWENTY, _("in 20")), (PER_CENT, _("per cent"))])
    budget = number(_("Or spend at most"))
    loss = number(_("A stop costs them"))
    class_code = choice(_("Class, what it allows"))
    refresh_list = tick(_("the whole refresh list"))
    stripped = tick(_("stripped and measured"))

    def offer(self) -> None:
        self.choices("class_code", self.offered.classes, ("", _("none named")))

    @property
    def target(self) -> str:
        """The aim as a share of 1; what can't be read is passed on as it was typed."""
        typed = figure(self.typed("aim"))
        whole = 100 if self.typed("aim_as") == self.PER_CENT else 20
        try:
            return str(Decimal(typed) / whole)
        except ArithmeticError:
            return typed
