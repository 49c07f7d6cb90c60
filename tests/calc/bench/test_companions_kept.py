"""No must companion is lost from finding to scope, order and record, for every finding, event and engine."""

from __future__ import annotations

from functools import lru_cache

import pytest

from catalogue.calc.engine import EngineCatalogue, Finding
from quotes.calc.ask.request import Observed
from quotes.calc.bench.assembly.requirements import KnownLimits, requirements_of
from quotes.calc.bench.assembly.work import work_of
from quotes.calc.bench.parts.picking import AgreedWork, pick_list
from quotes.calc.compare import compare
from quotes.calc.money.pricing import Pricing
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.sheet.reasons import reconditioned, renewed
from quotes.calc.sheet.sheet_lines import sheet_lines
from quotes.calc.sheet.values import Option
from quotes.calc.work.order import order_of_work
from tests.calc.asked import asked, ran
from tests.calc.bench.test_picking import had
from tests.calc.scope.rules.demands import case_of
from tests.calc.small import SHOP
from tests.cast import shipped, shipped_rows

TYPES = ("single450", "twin650", "four600", "four1000")
LIMITS = {row.code: row for row in shipped_rows().limits}


@lru_cache
def plain(engine_type: str) -> Option:
    """An option whose lines and reasons are put in its place."""
    request = asked(engine_type, ran(10), amount=None, unit=None, duty="track_day", tiers=("refresh",))
    return compare(request, shipped(engine_type), SHOP).option("refresh")


def least(engine_type: str, finding: Finding, component: str | None) -> Option:
    """The least that may be done where this is found or told on an engine that has hardly run."""
    seen, told = Observed(id=finding.code, component=component), finding.is_event
    findings, events = ((), (seen,)) if told else ((seen,), ())
    case = case_of(asked(engine_type, ran(10), findings=findings, events=events))
    grounds = grounds_of(case)
    scope = Scope(case, grounds.graph, grounds.musts, grounds.least, Pricing(case), case.use, None, 1.0, 1.0)
    return plain(engine_type).model_copy(
        update={
            "lines": sheet_lines(scope),
            "renewed": renewed(scope),
            "reconditioned": reconditioned(scope),
            "operations": tuple(order_of_work(case.catalogue, scope.plan.operations)),
        }
    )


def brought(start: set[str], catalogue: EngineCatalogue) -> tuple[set[str], set[str]]:
    """By hand: what these bring as new articles, and what has to be reconditioned at least."""
    new, todo, back = set[str](), set(start), set[str]()
    while todo:
        part = catalogue.components[todo.pop()]
        new.add(part.code)
        back |= set(part.recondition_on_renewal) & catalogue.components.keys()
        along = set(part.comes_with) & catalogue.components.keys()
        new |= along
        todo |= set(part.companions_on_renewal) & catalogue.components.keys() - new
    return new, back


@pytest.mark.parametrize("engine_type", TYPES)
def test_a_companion_of_any_finding_or_event_is_sold_ordered_and_recorded(engine_type: str) -> None:
    catalogue = shipped(engine_type)
    for finding in catalogue.findings.values():
        for component in finding.any_of or (None,):
            option = least(engine_type, finding, component)
            start = set(finding.renew)
            if component is not None and finding.component in start:
                start = start - {finding.component} | {component}
            new, back = brought({c for c in start if c in catalogue.components}, catalogue)
            at = (finding.code, component)

            assert new <= option.renewed.keys(), (at, new - option.renewed.keys())
            assert back <= option.renewed.keys() | option.reconditioned.keys(), at

            agreed = AgreedWork(option, policy_parts=SHOP.renew_policy_parts)
            picks = pick_list(agreed, catalogue)
            assert [c for c in option.renewed if not had(c, picks, catalogue)] == [], at

            asked_for = {
                one.code
                for one in requirements_of(work_of(agreed, catalogue), catalogue, KnownLimits(LIMITS, {}))
            }
            assert {f"new_{c}" for c in option.renewed} <= asked_for, at
            assert {f"rework_{c}" for c in option.reconditioned} <= asked_for, at
