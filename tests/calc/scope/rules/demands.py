"""What a rule demands of an engine, as node -> sentence."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from quotes.calc.ask.request import Request
from quotes.calc.scope.case import Case, make_case
from quotes.calc.scope.implications import Node
from quotes.calc.scope.rules.base import Must
from tests.calc.small import SHOP
from tests.cast import shipped

Rule = Callable[[Case], Iterator[Must]]


def case_of(request: Request, tier: str = "refresh") -> Case:
    return make_case(request, shipped(request.engine.type), SHOP, tier)


def demands(rule: Rule, request: Request, tier: str = "refresh") -> dict[Node, str]:
    return {must.node: must.sentence for must in rule(case_of(request, tier))}


def renewed(rule: Rule, request: Request, tier: str = "refresh") -> set[str]:
    return {code for kind, code in demands(rule, request, tier) if kind == "new"}
