"""Ages as they are written down, turned into reference service by the damage clock's own rates."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.calc.engine import Basis, Component, EngineCatalogue
from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Segment, Unit
from quotes.calc.life.stretches import stretches
from quotes.calc.life.units import CannotConvert

BASIS_UNIT: dict[Basis, str] = {"miles": to_say("miles"), "hours_mx": to_say("hours")}
BASIS_NAME: dict[Basis, str] = {"miles": to_say("track"), "hours_mx": to_say("motocross")}


class NoReference(ValueError):
    """An age that can't be turned into reference service; says why."""


def wear_per_unit(
    component: Component, unit: Unit, duty: str, tier: str, catalogue: EngineCatalogue
) -> float:
    """Reference service of one unit run in a duty and tune. NoReference, with what is missing."""
    if duty not in catalogue.duties:
        raise NoReference(say("the catalogue has no duty {duty}", duty=duty))
    if tier not in catalogue.tiers:
        raise NoReference(say("the catalogue has no tune {tier}", tier=tier))
    basis = catalogue.duties[duty].basis
    if basis not in component.lives:
        raise NoReference(_no_life(component, basis))
    one = Segment(amount=Decimal(1), unit=unit, duty=duty, tier=tier)
    try:
        return sum(each.worn for each in stretches(component, (one,), None, date.min, catalogue))
    except CannotConvert as why:
        raise NoReference(str(why)) from None


def _no_life(component: Component, basis: Basis) -> str:
    if basis == "miles":
        return say("{part} has no track life", part=component.name)
    return say("{part} has no motocross life", part=component.name)


def basis_of(duty: str, catalogue: EngineCatalogue) -> Basis | None:
    """The basis on which a duty's service is reckoned."""
    known = catalogue.duties.get(duty)
    return known.basis if known else None
