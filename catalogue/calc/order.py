"""What must come before what among the operations of one engine type, and whether that can be done at all.

`requires` and `requires_in_chassis` come before the operation, so does `after` where it is in the job too,
and a strip comes before its undo. Nothing here has a unit.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping

from catalogue.calc.engine import Operation


class CycleInWorkError(ValueError):
    """Operations that wait for each other in a ring; `loop` names them, each before the next."""

    def __init__(self, loop: tuple[str, ...]) -> None:
        self.loop = loop
        super().__init__(f"these operations wait for each other: {' > '.join((*loop, loop[0]))}")


def comes_before(operations: Iterable[Operation]) -> dict[str, frozenset[str]]:
    """Of each operation, those among `operations` that must be done before it."""
    present = {operation.code: operation for operation in operations}
    before: dict[str, set[str]] = {code: set() for code in present}
    for code, operation in present.items():
        before[code].update(operation.requires, operation.requires_in_chassis, operation.after)
        for closing in operation.undo:
            before.setdefault(closing, set()).add(code)
    return {code: frozenset(before[code] & present.keys()) for code in present}


def find_cycles(operations: Iterable[Operation]) -> tuple[tuple[str, ...], ...]:
    """One shortest loop for each knot of operations that wait for each other; empty where all is well.

    A loop names its operations in the order of work and starts with the first of them in `operations`.
    """
    before = comes_before(operations)
    next_to = _followers(before)
    loops: list[tuple[str, ...]] = []
    named: set[str] = set()
    for code in before:
        loop = () if code in named else _shortest_loop(code, next_to)
        if loop:
            loops.append(loop)
            named.update(loop)
    return tuple(loops)


def _followers(before: Mapping[str, frozenset[str]]) -> dict[str, list[str]]:
    followers: dict[str, list[str]] = {code: [] for code in before}
    for code, earlier in before.items():
        for one in sorted(earlier):
            followers[one].append(code)
    return followers


def _shortest_loop(start: str, next_to: Mapping[str, list[str]]) -> tuple[str, ...]:
    """The shortest way from an operation back to itself, or nothing."""
    came_from: dict[str, str] = {}
    waiting = deque([start])
    while waiting:
        here = waiting.popleft()
        for there in next_to[here]:
            if there == start:
                return _walk_back(start, here, came_from)
            if there not in came_from:
                came_from[there] = here
                waiting.append(there)
    return ()


def _walk_back(start: str, end: str, came_from: Mapping[str, str]) -> tuple[str, ...]:
    way = [end]
    while way[-1] != start:
        way.append(came_from[way[-1]])
    return tuple(reversed(way))
