"""What a teardown or a failure tells of how long parts lasted: failed, still sound, or past the limit."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import round_half_up
from quotes.calc.ask.request import EngineAsked, Renewal, Segment, Unit
from quotes.calc.life.stretches import in_unit
from quotes.calc.life.units import CannotConvert

Outcome = Literal["failed", "sound", "past_limit"]


@dataclass(frozen=True, slots=True)
class Age:
    """What a component has run since it was new, in the unit of the engine's last stretch."""

    amount: Decimal
    unit: Unit
    duty: str
    tier: str


def age_of(engine: EngineAsked, component: str, catalogue: EngineCatalogue) -> Age | None:
    """The age of a component, or None where it can't be said in one unit or nothing is known.

    A part that brought its own counts by that, and a new one in the unit of the engine.
    """
    carried = engine.carried.get(component)
    history = carried.history if carried else engine.history
    renewal = None if carried else engine.renewed.get(component)
    said_in = history or engine.history
    if history is None or not said_in:
        return None
    last = said_in[-1]
    try:
        stretches = (_in_last_unit(segment, last, catalogue) for segment in history)
        total = sum(stretches, Decimal(0))
        if renewal is None:
            since = total
        elif renewal.unit == last.unit:
            since = max(total - renewal.at, Decimal(0))
        else:
            return None
    except CannotConvert:
        return None
    return Age(round_half_up(since), last.unit, last.duty, last.tier)


def _in_last_unit(segment: Segment, last: Segment, catalogue: EngineCatalogue) -> Decimal:
    if segment.unit == last.unit:
        return Decimal(segment.amount)
    return Decimal(str(in_unit(segment, Renewal(at=Decimal(0), unit=last.unit), catalogue)))


def outcomes(
    *,
    stopped: Collection[str],
    worn: Collection[str],
    past_limit: Collection[str],
    measured_sound: Collection[str],
    renewed: Collection[str],
) -> Mapping[str, Outcome]:
    """What each component that was looked at turned out to be.

    `stopped`: a finding that stops the job names it. `worn`: a finding has it renewed. A part that was
    renewed with nothing found wrong was still sound: it did not last only so long.
    """
    found: dict[str, Outcome] = dict.fromkeys((*measured_sound, *renewed), "sound")
    found |= dict.fromkeys((*worn, *past_limit), "past_limit")
    found |= dict.fromkeys(stopped, "failed")
    return found
