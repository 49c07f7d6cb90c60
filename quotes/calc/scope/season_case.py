"""The engine as it comes back at an opening: run on, what is fitted kept, asked only to be freshened."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from quotes.calc.ask.request import EngineAsked, Request
from quotes.calc.life.clock import Used
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import Scope


def case_after(scope: Scope, *, ran: float, to_run: float) -> Case:
    """The case of the opening after a service of `ran`, for the next one of `to_run`.

    It is the tier of lowest rank on the tune that is fitted now, and what it aims at is the shop's floor: an
    opening renews what falls due and what keeps the engine good, it does not build it anew. What the
    strip-down found and measured, what was asked for, left or refused, was for the first job.
    """
    case = scope.case
    return replace(
        case,
        request=_request_after(scope, to_run / case.use),
        tier=min(case.catalogue.tiers.values(), key=lambda tier: tier.rank),
        fitted=case.tune,
        use=to_run,
        used=_used_after(scope, ran),
        laws={code: (each.wear, case.levels[code].new) for code, each in scope.plan.fitted(case).items()},
    )


def _used_after(scope: Scope, ran: float) -> dict[str, Used]:
    """The age of every component at the opening: exact, not carried through a history of rounded amounts."""
    case, new = scope.case, scope.plan.new
    wears = {code: each.wear for code, each in scope.plan.fitted(case).items()}
    for code in case.catalogue.components:
        if code not in wears:
            wears[code] = case.wear(code, 0.0 if code in new else case.used[code].share, "stock")
    return {
        code: Used((wear.age + wear.rate * ran) / wear.life, known=code in new or case.used[code].known)
        for code, wear in wears.items()
    }


def _request_after(scope: Scope, share: float) -> Request:
    """What is asked at an opening: the floor, or its share of an aim for the whole."""
    request = scope.case.request
    asked = request.target
    aim = scope.case.shop.chance_floor if asked is None else float(asked) ** share
    return request.model_copy(
        update={
            "engine": _engine_after(scope),
            "target": Decimal(str(aim)),
            "budget": None,
            "readings": (),
            "findings": (),
            "events": (),
            "include": (),
            "leave": (),
            "refusals": (),
            "edits": {},
            "refresh_list": False,
            "stripped": False,
        }
    )


def _engine_after(scope: Scope) -> EngineAsked:
    """The tune that is fitted, and how often what stays has been reconditioned."""
    engine, plan = scope.case.request.engine, scope.plan
    cycles = {code: engine.cycles_of(code) for code in (*engine.build_cycles, *engine.carried)}
    for code in plan.reconditioned:
        cycles[code] = cycles.get(code, 0) + 1
    kept = {code: count for code, count in cycles.items() if code not in plan.new}
    return engine.model_copy(
        update={"fitted": scope.case.tune.code, "renewed": {}, "carried": {}, "build_cycles": kept}
    )
