"""Companions of damage: what a part that was found damaged has us look at, as far as the engine is open."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

from catalogue.calc.engine import Component, EngineCatalogue
from catalogue.calc.said import say
from quotes.calc.ask.request import Request
from quotes.calc.scope.implications import Graph, Node, Parents, close
from quotes.calc.scope.rules.base import Must
from quotes.calc.scope.rules.finding_says import as_observed, mends, renewed_by, which_finding

Does = Literal["renew", "recondition", "look", "closed"]


@dataclass(frozen=True, slots=True)
class Companion:
    """What is done about one companion of a damaged component.

    `closed`: it lies behind more than this job opens, so it is only named. `operations` look at it.
    """

    damaged: str
    component: str
    does: Does
    operations: tuple[str, ...] = ()


def damaged_by(request: Request, catalogue: EngineCatalogue) -> tuple[str, ...]:
    """Components that the findings call damaged; metal whose source is not known calls none."""
    found: dict[str, None] = {}
    for observed in request.findings:
        seen = as_observed(observed)
        finding = which_finding(seen, catalogue)
        component = seen.component if seen.component in finding.any_of else finding.component
        if component in catalogue.components and (
            component in renewed_by(finding, seen) or mends(finding, catalogue)
        ):
            found[component or ""] = None
    return tuple(found)


def companions(
    damaged: Collection[str], catalogue: EngineCatalogue, graph: Graph, held: Parents
) -> Iterator[Companion]:
    """Every companion of every damaged component, as far as what is `held` reaches it."""
    for code in damaged:
        for other in catalogue.components[code].companions_on_damage:
            if other in catalogue.components and other not in damaged:
                yield _companion(code, catalogue.components[other], catalogue, graph, held)


def looks(request: Request, catalogue: EngineCatalogue, graph: Graph, held: Parents) -> Iterator[Must]:
    """The demands that companions of damage add to a list: looking at them, and fresh oil and water."""
    for companion in companions(damaged_by(request, catalogue), catalogue, graph, held):
        sentence = say("As {part}: found damaged.", part=catalogue.components[companion.damaged].name)
        if companion.does == "renew" and ("new", companion.component) not in held:
            yield Must(("new", companion.component), "companion", sentence)
        for operation in companion.operations:
            if companion.does == "look":
                yield Must(("work", operation), "companion", sentence)


def _companion(
    damaged: str, component: Component, catalogue: EngineCatalogue, graph: Graph, held: Parents
) -> Companion:
    code = component.code
    if ("new", code) in held or component.service_item:
        return Companion(damaged, code, "renew")
    if ("done", code) in held:
        return Companion(damaged, code, "recondition")
    operations = _inspections(component, catalogue)
    if all(_within_reach(("work", operation), catalogue, graph, held) for operation in operations) and (
        operations or _is_reached(component, held)
    ):
        return Companion(damaged, code, "look", operations)
    return Companion(damaged, code, "closed", operations)


def _inspections(component: Component, catalogue: EngineCatalogue) -> tuple[str, ...]:
    """The operations that look at a component: its own, else those on the bench that list it."""
    return component.inspection_operations or tuple(
        operation.code
        for operation in catalogue.operations.values()
        if operation.kind == "inspect" and component.code in operation.components
    )


def _is_reached(component: Component, held: Parents) -> bool:
    """Whether a way to the component itself is open: nothing more is needed to see it."""
    ways = component.access_any_of or ((),)
    return any(all(("work", o) in held for o in (*component.access_operations, *way)) for way in ways)


def _within_reach(node: Node, catalogue: EngineCatalogue, graph: Graph, held: Parents) -> bool:
    """Whether it can be done on the engine as far as the job opens it: nothing more is undone or taken."""
    return all(
        kind == "work" and catalogue.operations[code].kind in ("inspect", "clean", "office")
        for kind, code in close(graph, [node])
        if (kind, code) not in held
    )
