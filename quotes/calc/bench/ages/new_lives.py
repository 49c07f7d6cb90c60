"""Which components a build renewed, and how the engine's ages stand when it leaves.

An age begins anew exactly where something was renewed; what was left keeps the age it had.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.request import EngineAsked, Planned, Renewal, Request, Segment, Unit
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.life.clock import used_shares
from quotes.calc.life.stretches import in_unit
from quotes.calc.scope.implications import build_graph, close
from quotes.calc.sheet.values import Option

Level = Literal["new", "done"]
"""Renewed, or reconditioned."""
HALVINGS = 40
"""So often is the span halved: of a million miles less than a hundredth is left."""


def planned_lives(
    option: Option,
    extras: Iterable[str],
    extra_work: Iterable[DraftLine],
    catalogue: EngineCatalogue,
    *,
    about: Iterable[str] = (),
) -> dict[str, Level]:
    """What should be new or reconditioned: the option, the extras ticked, and the extra work agreed.

    Extras and extra work bring what comes with them or can't be without them. A component whose pieces extra
    work took off to the last is out again. `about` are components of extra work whose lines name none.
    """
    known = catalogue.components
    pieces = _pieces(option, extra_work)
    gone = {code for code, count in pieces.items() if count <= ZERO}
    found: dict[str, Level] = dict.fromkeys((c for c in option.reconditioned if c in known), "done")
    found |= dict.fromkeys((c for c in option.renewed if c in known and c not in gone), "new")
    bought = {code for code, count in pieces.items() if count > ZERO and code not in option.renewed}
    brought = close_over({c for c in (*extras, *bought, *about) if c in known and c not in gone}, catalogue)
    for code, level in brought.items():
        if level == "new" or code not in found:
            found[code] = level
    return found


def _pieces(option: Option, extra_work: Iterable[DraftLine]) -> dict[str, Decimal]:
    """Pieces of each component by all agreed part lines together."""
    counts: dict[str, Decimal] = {}
    changed: set[str] = set()
    for line in option.lines:
        if line.kind == "part" and line.component:
            counts[line.component] = counts.get(line.component, ZERO) + line.quantity
    for extra in extra_work:
        if extra.kind == "part" and extra.component:
            counts[extra.component] = counts.get(extra.component, ZERO) + extra.quantity
            changed.add(extra.component)
    return {code: counts[code] for code in changed}


def close_over(components: Collection[str], catalogue: EngineCatalogue) -> dict[str, Level]:
    """Components with all that is renewed or reconditioned with them."""
    mendable = frozenset(c.code for c in catalogue.components.values() if c.recondition is not None)
    graph = build_graph(catalogue, in_chassis=False, policy_parts=False, mendable=mendable)
    reached = close(graph, [("new", code) for code in sorted(components)])
    done: dict[str, Level] = {code: "done" for kind, code in reached if kind == "done"}
    return done | {code: "new" for kind, code in reached if kind == "new"}


def service_of(engine: EngineAsked, unit: Unit, catalogue: EngineCatalogue) -> Decimal:
    """All that the engine has run, in one unit. CannotConvert."""
    nought = Renewal(at=ZERO, unit=unit)
    return round_half_up(sum((_amount(one, nought, catalogue) for one in engine.history or ()), ZERO))


def _amount(stretch: Segment, unit: Renewal, catalogue: EngineCatalogue) -> Decimal:
    if stretch.unit == unit.unit:
        return stretch.amount
    return Decimal(str(in_unit(stretch, unit, catalogue)))


def handed_over(
    engine: EngineAsked,
    done: Mapping[str, Level],
    catalogue: EngineCatalogue,
    *,
    on: date,
    unit: Unit,
    tune: str | None = None,
) -> EngineAsked:
    """The engine as it leaves: ages begun anew where something is new, set back where it was reconditioned.

    A new article may be reconditioned as often as ever; one reconditioned once more has that counted. Of a
    history that nobody knows only what is new is known. `tune` is what is fitted now. CannotConvert.
    """
    new = Renewal(at=service_of(engine, unit, catalogue), unit=unit, on=on)
    renewed, cycles = dict(engine.renewed), dict(engine.build_cycles)
    for code, level in done.items():
        if level == "new":
            renewed[code] = new
            cycles.pop(code, None)
            continue
        cycles[code] = cycles.get(code, 0) + 1
        if (back := _set_back(engine, code, new, catalogue)) is not None:
            renewed[code] = back
    return engine.model_copy(
        update={"renewed": renewed, "build_cycles": cycles, "fitted": tune or engine.fitted}
    )


def _set_back(engine: EngineAsked, code: str, now: Renewal, catalogue: EngineCatalogue) -> Renewal | None:
    """The renewal that gives a reconditioned component the age it has afterwards; None: the one it has.

    It is younger by as much as reconditioning gives, and never older than it was.
    """
    recondition = catalogue.components[code].recondition
    assert now.on is not None
    if recondition is None or not engine.history:
        return None
    after = 1.0 - recondition.life_share
    if share_used(engine, code, catalogue, now.on) <= after:
        return None
    low, high = ZERO, now.at
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        tried = engine.model_copy(
            update={"renewed": {**engine.renewed, code: Renewal(at=middle, unit=now.unit)}}
        )
        low, high = (middle, high) if share_used(tried, code, catalogue, now.on) > after else (low, middle)
    return Renewal(at=round_half_up(high), unit=now.unit)


def share_used(engine: EngineAsked, code: str, catalogue: EngineCatalogue, on: date) -> float:
    """The share of its life that one component has used on a day."""
    duty = engine.history[-1].duty if engine.history else next(iter(catalogue.duties))
    request = Request(on=on, engine=engine, planned=Planned(duty=duty))
    return used_shares(request, catalogue)[code].share
