"""What the components of one engine have run in reference service, by the damage clock."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import EngineAsked, Planned, Request
from quotes.calc.life.clock import used_shares
from quotes.calc.life.units import CannotConvert


def reference_ages(engine: EngineAsked, catalogue: EngineCatalogue, on: date) -> Mapping[str, float]:
    """By component, on the basis of the engine's last stretch; of those alone whose past is known.

    Nothing where a part was renewed at an amount that can't be told in the unit of the stretches.
    The clock alone, without what was measured: a reading says how worn it is, not what it has run.
    """
    duty = engine.history[-1].duty if engine.history else next(iter(catalogue.duties))
    basis = catalogue.duties[duty].basis
    try:
        used = used_shares(Request(on=on, engine=engine, planned=Planned(duty=duty)), catalogue)
    except CannotConvert:
        return {}
    return {
        code: used[code].share * component.lives[basis].typical
        for code, component in catalogue.components.items()
        if used[code].known and basis in component.lives
    }
