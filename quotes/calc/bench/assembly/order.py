"""The order in which components are put together, by the work that fits each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.bench.teardown.sheet import work_order


def assembly_order(catalogue: EngineCatalogue, operations: Iterable[str] = ()) -> tuple[str, ...]:
    """Components in the order in which they are fitted: each where the work that fits it first comes.

    Work fits what it renews and takes, and what the strip-down that it undoes took off. Where one of these
    operations fits a component, others do not count for it.
    """
    steps = {code: at for at, code in enumerate(work_order(catalogue))}
    first = _fitted(catalogue, {code: steps[code] for code in operations})
    first = _fitted(catalogue, steps) | first
    for part in catalogue.components.values():
        for given in part.comes_with:
            first.setdefault(given, first.get(part.code, len(steps)))
    return tuple(sorted(catalogue.components, key=lambda code: first.get(code, len(steps))))


def _fitted(catalogue: EngineCatalogue, steps: Mapping[str, int]) -> dict[str, int]:
    """Where in these steps each component is first fitted."""
    first: dict[str, int] = {}
    for operation in catalogue.operations.values():
        fits = [operation.code] if operation.is_assembly else list(operation.undo)
        for code in (one for one in fits if one in steps):
            for component in (*operation.components, *(use.component for use in operation.consumes)):
                first[component] = min(first.get(component, steps[code]), steps[code])
    return first
