"""A legal order of work for the operations of a job."""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterable, Mapping

from catalogue.calc.engine import EngineCatalogue, Operation
from catalogue.calc.order import CycleInWorkError, comes_before, find_cycles
from quotes.calc.work.work_set import operation_of


def order_of_work(catalogue: EngineCatalogue, operations: Iterable[str]) -> tuple[str, ...]:
    """The operations in an order in which they can be done; ties go by their place in the catalogue.

    What is required comes before, so does what is named in `after`, and a strip comes before its undo.
    Where those leave it open, work on what a strip has opened is done before it is closed again.
    Raises CycleInWorkError, which names the loop, and UnknownOperationError.
    """
    chosen = {code: operation_of(catalogue, code) for code in operations}
    job = {code: chosen[code] for code in catalogue.operations if code in chosen}
    before = comes_before(job.values())
    order = _sorted(before, _before_closing(job, before))
    if len(order) < len(job):
        left = (operation for code, operation in job.items() if code not in order)
        raise CycleInWorkError(find_cycles(left)[0])
    return tuple(order)


def _before_closing(
    job: Mapping[str, Operation], before: Mapping[str, frozenset[str]]
) -> dict[str, frozenset[str]]:
    """Of each closing operation, the work that should be done while it is still open.

    What must come after the closing by `before` (valves are shimmed with the cams in) is no such work.
    """
    earlier = _all_before(before)
    closing: dict[str, set[str]] = {code: set() for code in job}
    for code, operation in job.items():
        inside = {code, *operation.undo} & job.keys()
        for opened in {*operation.requires, *operation.requires_in_chassis} & job.keys():
            for closer in {*job[opened].undo} & job.keys():
                closing[closer] |= {one for one in inside - {closer} if closer not in earlier[one]}
    return {code: frozenset(work) for code, work in closing.items()}


def _all_before(before: Mapping[str, frozenset[str]]) -> dict[str, set[str]]:
    """All that comes before each operation, at any distance."""
    earlier: dict[str, set[str]] = {}
    for code in before:
        found: set[str] = set()
        waiting = list(before[code])
        while waiting:
            one = waiting.pop()
            if one not in found:
                found.add(one)
                waiting.extend(before[one] - found)
        earlier[code] = found
    return earlier


def _sorted(before: Mapping[str, frozenset[str]], closing: Mapping[str, frozenset[str]]) -> dict[str, None]:
    """Operations one after the other; what is caught in a loop is left out.

    Two wishes of `closing` may cross each other: then the first operation that may be done is done.
    """
    place = {code: number for number, code in enumerate(before)}
    followers: dict[str, list[str]] = {}
    for follower, earlier in before.items():
        for code in earlier:
            followers.setdefault(code, []).append(follower)
    done: dict[str, None] = {}
    ready = sorted((place[code], code) for code in before if not before[code])
    while ready:
        at = next((i for i, (_, code) in enumerate(ready) if closing[code] <= done.keys()), 0)
        _, code = ready.pop(at)
        done[code] = None
        for follower in followers.get(code, ()):
            if before[follower] <= done.keys():
                insort(ready, (place[follower], follower))
    return done
