"""The age of a part that carries its own, as one says it."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.ask.request import Segment, Unit
from quotes.calc.bench.ages.run_in_stays import service_in
from quotes.calc.life.units import WORDS, CannotConvert
from quotes.calc.sheet.unit_words import plain_figure

PLACES: dict[Unit, int] = {"h": 1, "mi": 0, "km": 0, "runs": 0}


def age_in_words(history: Iterable[Segment] | None, catalogue: EngineCatalogue) -> str:
    """An age in the unit of the last stretch; unit by unit where they can't be told in one."""
    if history is None:
        return say("not known")
    ran = tuple(history)
    if not ran:
        return say("new")
    try:
        return _said(service_in(ran, ran[-1].unit, catalogue), ran[-1].unit)
    except CannotConvert:
        units = dict.fromkeys(segment.unit for segment in ran)
        return say(" and ").join(
            _said(sum((one.amount for one in ran if one.unit == unit), ZERO), unit) for unit in units
        )


def _said(amount: Decimal, unit: Unit) -> str:
    return f"{plain_figure(round_half_up(amount, PLACES[unit]))} {say(WORDS[unit])}"
