"""What a job's teardown tells of how long its components lasted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO
from quotes.calc.ask.request import EngineAsked
from quotes.calc.bench.lasted import Age, Outcome, age_of, outcomes
from quotes.calc.learning.ran import reference_ages
from quotes.models import Evidence, FindingSeen, Job, Judged, Measured, Verdict
from quotes.queries.bench.committed import accepted_option
from quotes.queries.bench.jobs import build_of
from quotes.queries.bench.stays import EngineNow, carried_at
from quotes.queries.engines import engine_asked, known_catalogue


@dataclass(frozen=True, slots=True)
class Lasted:
    """One component: its age when it was looked at, how it was, and the age at which it was seen last."""

    component: str
    age: Age
    outcome: Outcome
    entry: Decimal
    ran: float | None = None
    """Its age as reference service, where the clock can say it."""
    ran_at_entry: float | None = None


def age_in(engine: EngineAsked, component: str) -> Age | None:
    """The age of a component of an engine, where it is known."""
    catalogue = known_catalogue(engine.type)
    return age_of(engine, component, catalogue) if catalogue else None


def ran_in(engine: EngineAsked, component: str, on: date) -> float | None:
    """The same as reference service, where the clock can say it."""
    catalogue = known_catalogue(engine.type)
    return reference_ages(engine, catalogue, on).get(component) if catalogue else None


def lasted_of(job: Job, on: date) -> tuple[Lasted, ...]:
    """Every component that the teardown judged, and whose age is known; as it stands on a day."""
    catalogue = known_catalogue(job.engine.type_code)
    if catalogue is None:
        return ()
    recorded = engine_asked(job.engine)
    carried = carried_at(job, EngineNow(job.engine, recorded))
    asked = recorded.model_copy(update={"carried": carried})
    seen = _seen_before(job)
    ran = reference_ages(asked, catalogue, on)
    found = []
    for component, outcome in _outcomes(job, catalogue).items():
        part = catalogue.components.get(component)
        age = age_of(asked, component, catalogue) if part and part.lives else None
        if age is not None:
            # What was seen of this engine's component before was of another part, where it has a new one.
            before = None if component in carried else seen.get((component, age.unit))
            found.append(_since(component, age, outcome, before, ran.get(component)))
    return tuple(found)


def _since(component: str, age: Age, outcome: Outcome, before: Evidence | None, ran: float | None) -> Lasted:
    """One that lasted, watched since it was last seen sound, or since it was new."""
    if before is None or before.exit > age.amount:
        return Lasted(component, age, outcome, ZERO, ran, 0.0)
    if ran is None or not age.amount:
        return Lasted(component, age, outcome, before.exit)
    then = ran * float(before.exit / age.amount) if before.ran is None else min(before.ran, ran)
    return Lasted(component, age, outcome, before.exit, ran, then)


def _outcomes(job: Job, catalogue: EngineCatalogue) -> dict[str, Outcome]:
    findings = list(FindingSeen.objects.standing().filter(job=job))
    readings = list(Measured.objects.standing().filter(job=job))
    past = {row.component for row in readings if row.verdict == Verdict.PAST}
    sound = {row.component for row in readings if row.verdict in (Verdict.WITHIN, Verdict.WATCH)} - past
    build = build_of(job)
    option = accepted_option(build) if build else None
    sound |= {row.component or "" for row in findings if row.judged == Judged.SERVICEABLE}
    return dict(
        outcomes(
            stopped=_named(findings, catalogue, Judged.STOP),
            worn=_named(findings, catalogue, Judged.RENEW, Judged.COMPANIONS),
            past_limit=past,
            measured_sound=sound,
            renewed=option.renewed if option else (),
        )
    )


def _named(findings: list[FindingSeen], catalogue: EngineCatalogue, *judged: Judged) -> set[str]:
    """The components that findings so judged are about."""
    found = set()
    for row in findings:
        if row.judged not in judged:
            continue
        known = catalogue.findings.get(row.finding_code)
        found.add(row.component or (known.component if known and known.component else ""))
    return found - {""}


def _seen_before(job: Job) -> dict[tuple[str, str], Evidence]:
    """Where components of this engine were last seen sound, in earlier jobs."""
    rows = Evidence.objects.standing().filter(job__engine=job.engine_id, outcome="sound").exclude(job=job)
    return {(row.component, row.unit): row for row in rows.order_by("on", "pk")}
