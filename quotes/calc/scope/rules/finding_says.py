"""A finding of the strip-down, or an event that was told or logged, says what is renewed and looked at."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.engine import EngineCatalogue, Finding
from catalogue.calc.said import say
from quotes.calc.ask.request import Observed, Request
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must, ReasonCode
from quotes.calc.sheet.unit_words import as_written


def find(case: Case) -> Iterator[Must]:
    """The demands of every finding and event of the request."""
    for observed in (*case.request.findings, *case.request.events):
        yield from demands_of(as_observed(observed), case.request, case.catalogue)


def as_observed(observed: Observed | str) -> Observed:
    """A finding or event that was named by its code alone, as a value."""
    return observed if isinstance(observed, Observed) else Observed(id=observed)


def which_finding(seen: Observed, catalogue: EngineCatalogue) -> Finding:
    """The catalogue's entry; an over-rev whose amount is known is graded by it, whatever it was called."""
    named = catalogue.findings[seen.id]
    if named.pct_over is None or seen.pct_over is None:
        return named
    grades = [each for each in catalogue.findings.values() if each.pct_over is not None]
    over = float(seen.pct_over)
    reached = [each for each in grades if each.pct_over is not None and each.pct_over[0] < over]
    return max(reached or grades[:1], key=lambda each: each.pct_over or (0.0, 0.0))


def demands_of(seen: Observed, request: Request, catalogue: EngineCatalogue) -> Iterator[Must]:
    """The demands of one finding or event."""
    finding = which_finding(seen, catalogue)
    code: ReasonCode = "event" if finding.is_event else "finding"
    sentence = _sentence(catalogue, finding, seen)
    for component in renewed_by(finding, seen):
        if component in catalogue.components and not _renewed_since(request, component, seen):
            yield Must(("new", component), code, sentence)
    for operation in finding.inspect_operations:
        if operation in catalogue.operations:
            yield Must(("work", operation), code, sentence)
    if finding.opens is not None and finding.opens in catalogue.operations:
        yield Must(("work", finding.opens), code, sentence)
    for work in finding.machine_work:
        if work in catalogue.machine_work:
            yield Must(("out", work), code, sentence)
    if mends(finding, catalogue):
        yield Must(("done", finding.component or ""), code, sentence)


def renewed_by(finding: Finding, seen: Observed) -> tuple[str, ...]:
    """What it makes new, the named component standing in for the catalogue's example."""
    if seen.component is None or seen.component not in finding.any_of:
        return finding.renew
    return tuple(seen.component if c == finding.component else c for c in finding.renew)


def mends(finding: Finding, catalogue: EngineCatalogue) -> bool:
    """Whether the component itself counts as reconditioned: the finding sends out all that this takes."""
    component = catalogue.components.get(finding.component or "")
    if component is None or component.recondition is None or component.code in finding.renew:
        return False
    return set(component.recondition.machine_work) <= set(finding.machine_work)


def _renewed_since(request: Request, component: str, seen: Observed) -> bool:
    renewal = request.engine.renewed.get(component)
    return renewal is not None and seen.at is not None and renewal.at > seen.at


def _sentence(catalogue: EngineCatalogue, finding: Finding, seen: Observed) -> str:
    component = catalogue.components.get(seen.component or "")
    parts = [part for part in (component.name if component is not None else "", seen.place) if part]
    where = f"{', '.join(parts)}: " if parts else ""
    found = finding.name
    if seen.pct_over is not None:
        found = say("{finding}, {percent} % over", finding=found, percent=as_written(seen.pct_over))
    return f"{where}{found}."
