"""Ages as they are written down, turned into reference service by the damage clock's own rates."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.calc.engine import Basis, Component, EngineCatalogue
from quotes.calc.ask.request import Segment, Unit
from quotes.calc.life.stretches import stretches
from quotes.calc.life.units import CannotConvert

BASIS_UNIT: dict[Basis, str] = {"miles": "miles", "hours_mx": "hours"}
BASIS_NAME: dict[Basis, str] = {"miles": "track", "hours_mx": "motocross"}


class NoReference(ValueError):
    """An age that can't be turned into reference service; says why."""


def wear_per_unit(
    component: Component, unit: Unit, duty: str, tier: str, catalogue: EngineCatalogue
) -> float:
    """Reference service of one unit run in a duty and tune. NoReference, with what is missing."""
    if duty not in catalogue.duties:
        raise NoReference(f"the catalogue has no duty {duty}")
    if tier not in catalogue.tiers:
        raise NoReference(f"the catalogue has no tune {tier}")
    basis = catalogue.duties[duty].basis
    if basis not in component.lives:
        raise NoReference(f"{component.name} has no {BASIS_NAME[basis]} life")
    one = Segment(amount=Decimal(1), unit=unit, duty=duty, tier=tier)
    try:
        return sum(each.worn for each in stretches(component, (one,), None, date.min, catalogue))
    except CannotConvert as why:
        raise NoReference(str(why)) from None


def basis_of(duty: str, catalogue: EngineCatalogue) -> Basis | None:
    """The basis on which a duty's service is reckoned."""
    known = catalogue.duties.get(duty)
    return known.basis if known else None
