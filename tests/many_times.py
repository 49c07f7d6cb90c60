"""A catalogue several times as large: components, operations, parts and machine work copied, wired alike."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any, TypeVar

from catalogue.calc.engine import Component, EngineCatalogue, MachineWork, Operation, Tier

Thing = TypeVar("Thing", Component, Operation, MachineWork)


def many_times(catalogue: EngineCatalogue, times: int) -> EngineCatalogue:
    """The engine so many times over in one; each copy stops it so many times more seldom."""
    marks = [""] + [f"_{number}" for number in range(2, times + 1)]
    components, operations = catalogue.components.values(), catalogue.operations.values()
    parts = [(mark, key, part) for mark in marks for key, part in catalogue.parts.items()]
    strength = catalogue.grade_strength
    return replace(
        catalogue,
        components=_by_code(_component(each, mark, times) for mark in marks for each in components),
        operations=_by_code(_operation(each, mark) for mark in marks for each in operations),
        machine_work=_by_code(
            _work(each, mark) for mark in marks for each in catalogue.machine_work.values()
        ),
        parts={
            (code + mark, grade): replace(part, component=code + mark, number=part.number + mark)
            for mark, (code, grade), part in parts
        },
        tiers={code: _tier(tier, marks) for code, tier in catalogue.tiers.items()},
        grade_strength={code + mark: each for mark in marks for code, each in strength.items()},
    )


def _by_code(things: Iterable[Thing]) -> dict[str, Thing]:
    return {thing.code: thing for thing in things}


def _marked(codes: tuple[str, ...], mark: str) -> tuple[str, ...]:
    return tuple(code + mark for code in codes)


def _lists(of: object, names: Iterable[str], mark: str) -> dict[str, Any]:
    return {name: _marked(getattr(of, name), mark) for name in names}


def _component(component: Component, mark: str, times: int) -> Component:
    lists: tuple[str, ...] = (
        "access_operations",
        "with_operations",
        "machine_work",
        "companions_on_renewal",
        "companions_on_damage",
        "recondition_on_renewal",
        "comes_with",
        "inspection_operations",
    )
    again = component.recondition
    return replace(
        component,
        code=component.code + mark,
        stopping_share=component.stopping_share / times,
        access_any_of=tuple(_marked(way, mark) for way in component.access_any_of),
        recondition=again and replace(again, machine_work=_marked(again.machine_work, mark)),
        **_lists(component, lists, mark),
    )


def _operation(operation: Operation, mark: str) -> Operation:
    lists = ("requires", "requires_in_chassis", "after", "undo", "components")
    consumes = tuple(replace(use, component=use.component + mark) for use in operation.consumes)
    marked = _lists(operation, lists, mark)
    return replace(operation, code=operation.code + mark, consumes=consumes, **marked)


def _work(work: MachineWork, mark: str) -> MachineWork:
    marked = _lists(work, ("needs_operations", "components"), mark)
    return replace(work, code=work.code + mark, **marked)


def _tier(tier: Tier, marks: list[str]) -> Tier:
    lists = ("renew", "renew_if_due", "recondition", "operations")
    copied: dict[str, Any] = {
        name: tuple(code + mark for mark in marks for code in getattr(tier, name)) for name in lists
    }
    return replace(
        tier,
        performance_grade=frozenset(code + mark for mark in marks for code in tier.performance_grade),
        machine_work=tuple(replace(w, code=w.code + mark) for mark in marks for w in tier.machine_work),
        **copied,
    )
