"""What a job's teardown tells of how long its components lasted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import cast

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO
from quotes.calc.ask.request import EngineAsked
from quotes.calc.bench.ages.lasted import Age, Outcome, age_of, outcomes
from quotes.calc.learning.ran import reference_ages
from quotes.models import Engine, Evidence, FindingSeen, Job, Judged, Measured, Verdict
from quotes.queries.accepted import accepted_option
from quotes.queries.bench.ages.stays import EngineNow, carried_at
from quotes.queries.bench.jobs import build_of
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


def lasted_until(engine: Engine, asked: EngineAsked, component: str, outcome: str, on: date) -> Lasted | None:
    """One component that ended between two jobs, watched since last seen sound; None: age not known."""
    catalogue = known_catalogue(asked.type)
    age = age_of(asked, component, catalogue) if catalogue else None
    if catalogue is None or age is None:
        return None
    ran = reference_ages(asked, catalogue, on).get(component)
    seen = _seen_before(engine, asked)
    before = None if component in asked.carried else seen.get((component, age.unit))
    return _since(component, age, cast(Outcome, outcome), before, ran)


def lasted_of(job: Job, on: date) -> tuple[Lasted, ...]:
    """Every component that the teardown judged, and whose age is known; as it stands on a day."""
    catalogue = known_catalogue(job.engine.type_code)
    if catalogue is None:
        return ()
    recorded = engine_asked(job.engine)
    carried = carried_at(job, EngineNow(job.engine, recorded))
    asked = recorded.model_copy(update={"carried": carried})
    seen = _seen_before(job.engine, recorded, but=job)
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


def _seen_before(
    engine: Engine, recorded: EngineAsked, *, but: Job | None = None
) -> dict[tuple[str, str], Evidence]:
    """Where components of this engine were last seen sound in other jobs, but for those renewed since."""
    rows = Evidence.objects.standing().filter(job__engine=engine, outcome="sound", failure=None)
    found = {}
    for row in rows.exclude(job=but).order_by("on", "pk") if but else rows.order_by("on", "pk"):
        renewed = recorded.renewed.get(row.component)
        if renewed is None or renewed.on is None or renewed.on < row.on:
            found[row.component, str(row.unit)] = row
    return found
