"""A finding of the strip-down, or an event that was told or logged, says what is renewed and looked at."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.engine import EngineCatalogue, Finding
from quotes.calc.ask.request import Observed
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must, ReasonCode


def find(case: Case) -> Iterator[Must]:
    """The demands of every finding and event of the request."""
    for observed in (*case.request.findings, *case.request.events):
        seen = observed if isinstance(observed, Observed) else Observed(id=observed)
        yield from _demands(case, which_finding(seen, case.catalogue), seen)


def which_finding(seen: Observed, catalogue: EngineCatalogue) -> Finding:
    """The catalogue's entry; an over-rev whose amount is known is graded by it, whatever it was called."""
    named = catalogue.findings[seen.id]
    if named.pct_over is None or seen.pct_over is None:
        return named
    grades = [each for each in catalogue.findings.values() if each.pct_over is not None]
    over = float(seen.pct_over)
    reached = [each for each in grades if each.pct_over is not None and each.pct_over[0] < over]
    return max(reached or grades[:1], key=lambda each: each.pct_over or (0.0, 0.0))


def _demands(case: Case, finding: Finding, seen: Observed) -> Iterator[Must]:
    code: ReasonCode = "event" if finding.is_event else "finding"
    sentence = _sentence(case, finding, seen)
    for component in _renewed(finding, seen):
        if component in case.catalogue.components and not _renewed_since(case, component, seen):
            yield Must(("new", component), code, sentence)
    for operation in finding.inspect_operations:
        if operation in case.catalogue.operations:
            yield Must(("work", operation), code, sentence)
    if finding.opens is not None and finding.opens in case.catalogue.operations:
        yield Must(("work", finding.opens), code, sentence)
    for work in finding.machine_work:
        if work in case.catalogue.machine_work:
            yield Must(("out", work), code, sentence)
    yield from _mended(case, finding, sentence, code)


def _renewed(finding: Finding, seen: Observed) -> tuple[str, ...]:
    """What it makes new, the named component standing in for the catalogue's example."""
    if seen.component is None or seen.component not in finding.any_of:
        return finding.renew
    return tuple(seen.component if c == finding.component else c for c in finding.renew)


def _mended(case: Case, finding: Finding, sentence: str, code: ReasonCode) -> Iterator[Must]:
    """The component itself counts as reconditioned where the finding sends out all that this takes."""
    component = case.catalogue.components.get(finding.component or "")
    if component is None or component.recondition is None or component.code in finding.renew:
        return
    if set(component.recondition.machine_work) <= set(finding.machine_work):
        yield Must(("done", component.code), code, sentence)


def _renewed_since(case: Case, component: str, seen: Observed) -> bool:
    renewal = case.request.engine.renewed.get(component)
    return renewal is not None and seen.at is not None and renewal.at > seen.at


def _sentence(case: Case, finding: Finding, seen: Observed) -> str:
    parts = [part for part in (_component_name(case, seen), seen.place) if part]
    where = f"{', '.join(parts)}: " if parts else ""
    over = f", {seen.pct_over} % over" if seen.pct_over is not None else ""
    return f"{where}{finding.name}{over}."


def _component_name(case: Case, seen: Observed) -> str:
    component = case.catalogue.components.get(seen.component or "")
    return component.name if component is not None else ""
