"""What reconditioning gives back to a part with an age of its own."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import takewhile

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.calc.ask.request import Carried, EngineAsked, Planned, Request, Segment
from quotes.calc.bench.ages.stays import CannotMove, InEngine, PartLife, fit, take_out
from quotes.calc.life.clock import used_shares

PLACES = 4


def counts_for(
    history: tuple[Segment, ...] | None, component: str, catalogue: EngineCatalogue, on: date
) -> Decimal | None:
    """The share of what a part has run that counts on once it is reconditioned; None where it can't be.

    It is as young afterwards as reconditioning makes it, and never older than it was. Of an age that nobody
    knows nobody knows it afterwards.
    """
    recondition = catalogue.components[component].recondition
    if recondition is None:
        return None
    after = 1.0 - recondition.life_share
    used = _share_used(history or (), component, catalogue, on)
    return Decimal(1) if used <= after else round_half_up(Decimal(str(after / used)), PLACES)


def _share_used(history: tuple[Segment, ...], component: str, catalogue: EngineCatalogue, on: date) -> float:
    carried = {component: Carried(serial="", history=history)}
    engine = EngineAsked(type=catalogue.engine_type.code, history=(), carried=carried)
    duty = history[-1].duty if history else next(iter(catalogue.duties))
    request = Request(on=on, engine=engine, planned=Planned(duty=duty))
    return used_shares(request, catalogue)[component].share


def has_run_since(life: PartLife) -> bool:
    """Whether a part has run since it was reconditioned last; True where it never was."""
    since = list(takewhile(lambda stay: stay.counts_for is None, reversed(life.stays)))
    return len(since) == len(life.stays) or any(stay.ran != 0 for stay in since)


def recondition(life: PartLife, share: Decimal, engine: InEngine | None, on: date) -> PartLife:
    """The part with `share` of its age, back in the engine it is in, or on the shelf; CannotMove."""
    if life.stays and not has_run_since(life):
        raise CannotMove(say("{serial} has run nothing since it was reconditioned.", serial=life.serial))
    if life.stay is not None and engine is not None:
        return fit(recondition(take_out(life, engine, on), share, None, on), engine, on)
    if life.scrapped_on is not None:
        raise CannotMove(
            say("{serial} was scrapped on {scrapped_on}.", serial=life.serial, scrapped_on=life.scrapped_on)
        )
    if not life.stays:
        raise CannotMove(
            say(
                "{serial} has been in no engine yet: enter it with the age that it counts for now.",
                serial=life.serial,
            )
        )
    *before, last = life.stays
    if last.until_on is not None and on < last.until_on:
        raise CannotMove(
            say(
                "{on} is before {until_on}, when {serial} was moved last.",
                on=on,
                until_on=last.until_on,
                serial=life.serial,
            )
        )
    return replace(life, stays=(*before, replace(last, counts_for=share)))
