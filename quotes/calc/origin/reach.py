"""How far the option is good for, opened to the three bounds of which the least holds."""

from __future__ import annotations

from quotes.calc.life.horizon import GoodFor, ceiling_bound, chance_bound, first_life
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.measures import in_planned_unit
from quotes.calc.sheet.words import estimate_in_words


def good_for(told: Explained) -> Origin:
    """Use until the engine must be opened: the least of three bounds."""
    case, wears = told.case, told.measures.wears
    bounds = (
        first_life(wears, told.catalogue, case.use),
        chance_bound(wears, told.shop, case.use, fault_hazard=told.measures.fault_hazard),
        ceiling_bound(wears, told.catalogue, told.shop, case.use),
    )
    titles = ("First life inside the engine", "Floor of the chance", "Ceiling for rider safety")
    return Origin(
        "Good for",
        _said(told, told.bound.use),
        "The least of three bounds; then the engine is opened.",
        "floor and ceiling: the workshop's settings",
        parts=tuple(_bound(told, title, bound) for title, bound in zip(titles, bounds, strict=True)),
        adds="least",
        exact=told.bound.use,
        key="good_for",
    )


def _bound(told: Explained, title: str, bound: GoodFor) -> Origin:
    key = f"component:{bound.component}" if bound.component else ""
    return Origin(title, _said(told, bound.use), f"{bound.reason}.", exact=bound.use, key=key)


def _said(told: Explained, use: float) -> str:
    return estimate_in_words(in_planned_unit(told.case, use), told.unit)
