"""Amounts of service carried between miles, kilometres, hours and runs, by the duty they were run in."""

from __future__ import annotations

from catalogue.calc.engine import Basis, Duty
from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Unit

KM_PER_MILE = 1.609344
"""Exact: the international mile of 1959."""
UNITS_OF_BASIS: dict[Basis, Unit] = {"miles": "mi", "hours_mx": "h"}
YEARLY: dict[Basis, float] = {"miles": 1800.0, "hours_mx": 70.0}
"""Service that a year on the shelf counts for, where wear is by time; common practice, no source."""
WORDS: dict[Unit, str] = {
    "h": to_say("hours"),
    "mi": to_say("miles"),
    "km": to_say("kilometres"),
    "runs": to_say("runs"),
}


class CannotConvert(ValueError):
    """An amount in this unit says nothing about this duty."""

    def __init__(self, unit: Unit, duty: Duty) -> None:
        self.unit = unit
        self.duty = duty
        said = say(
            "{unit} can't be converted for {duty}: use {units}",
            unit=say(WORDS[unit]),
            duty=duty.name,
            units=say(" or ").join(usable(duty)),
        )
        super().__init__(said)


def per_basis(unit: Unit, duty: Duty) -> float:
    """How many of the duty's basis units (miles, or motocross hours) one `unit` is.

    Hours become miles at the pace of the duty's own events; raises CannotConvert where there is no pace.
    """
    factor = _factor(unit, duty)
    if factor is None:
        raise CannotConvert(unit, duty)
    return factor


def _factor(unit: Unit, duty: Duty) -> float | None:
    if duty.basis == "hours_mx":
        return 1.0 if unit == "h" else None
    if unit == "mi":
        return 1.0
    if unit == "km":
        return 1.0 / KM_PER_MILE
    if unit == "h" and duty.event_miles and duty.event_hours:
        return duty.event_miles / duty.event_hours
    if unit == "runs" and duty.season_runs and duty.season_miles:
        return duty.season_miles / duty.season_runs
    return None


def usable(duty: Duty) -> tuple[Unit, ...]:
    """The units in which service of this duty may be given."""
    return tuple(unit for unit in WORDS if _factor(unit, duty) is not None)


def season(duty: Duty) -> float:
    """The duty's own season in its basis unit."""
    return duty.season_hours if duty.basis == "hours_mx" else float(duty.season_miles or 0)


def event(duty: Duty) -> float:
    """The duty's usual event in its basis unit."""
    return duty.event_hours if duty.basis == "hours_mx" else float(duty.event_miles or 0)
