"""Rows of evidence as the sums of learning want them, in a number of queries that does not grow with them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import cast

from django.utils import timezone

from catalogue.calc.engine import Basis, Component, EngineCatalogue
from catalogue.calc.said import say
from quotes.calc.ask.request import Unit
from quotes.calc.bench.ages.lasted import Outcome
from quotes.calc.learning.reference import NoReference, basis_of, wear_per_unit
from quotes.calc.learning.seen import SetSeen
from quotes.calc.life.units import WORDS
from quotes.models import Evidence, PartStay, RenewedPart
from quotes.queries.engines import known_catalogue
from quotes.queries.people import name_of

LifeKey = tuple[str, Basis]
"""A component and the basis that its life is written on."""


class Catalogues:
    """The catalogue of each engine type, asked for once."""

    def __init__(self) -> None:
        self._known: dict[str, EngineCatalogue | None] = {}

    def of(self, type_code: str) -> EngineCatalogue | None:
        if type_code not in self._known:
            self._known[type_code] = known_catalogue(type_code)
        return self._known[type_code]


def all_seen(component: str = "") -> dict[LifeKey, list[SetSeen]]:
    """Everything that was ever seen of one component, or of each, by the life that it is about.

    What can't be counted is among them, and says why.
    """
    rows = list(_rows(component))
    catalogues, known = Catalogues(), _known_of(rows)
    found: dict[LifeKey, list[SetSeen]] = defaultdict(list)
    for row in rows:
        catalogue = catalogues.of(row.type_code)
        part = catalogue.components.get(row.component) if catalogue else None
        if catalogue is None or part is None or not part.lives:
            continue
        run_on = basis_of(row.duty, catalogue)
        basis = next(iter(part.lives)) if run_on is None else run_on
        found[row.component, basis].append(_seen(row, part, catalogue, known))
    return found


def _rows(component: str) -> Iterable[Evidence]:
    rows = Evidence.objects.select_related("job__engine", "failure__engine", "by").order_by("on", "pk")
    return rows.filter(component=component) if component else rows


_Place = tuple[int, str]
"""An engine and a component of it."""


@dataclass(frozen=True, slots=True)
class _Known:
    """What is known of each place beside its rows."""

    out: dict[_Place, date]
    """The last day on which a part left it."""
    reported: dict[_Place, list[tuple[date, int | None]]]
    """Failures that were reported: the day, and the job in which they were looked at."""
    looked: dict[_Place, list[date]]
    """Days of the jobs that looked at it."""


def _known_of(rows: Iterable[Evidence]) -> _Known:
    known = _Known(_came_out(rows), defaultdict(list), defaultdict(list))
    for row in rows:
        if row.failure:
            place = row.failure.engine_id, row.component
            known.reported[place].append((row.on, row.failure.comeback_job_id))
        elif row.job:
            known.looked[row.job.engine_id, row.component].append(row.on)
    return known


def _came_out(rows: Iterable[Evidence]) -> dict[_Place, date]:
    """The last day on which a part left each place. Two queries."""
    engines = {row.job.engine_id for row in rows if row.job}
    renewed = RenewedPart.objects.filter(engine__in=engines, on__isnull=False)
    stays = PartStay.objects.filter(engine__in=engines, until_on__isnull=False)
    out: dict[_Place, date] = {}
    for engine, component, on in (
        *renewed.values_list("engine_id", "component", "on"),
        *stays.values_list("engine_id", "part__component", "until_on"),
    ):
        assert on is not None
        out[engine, component] = max(on, out.get((engine, component), on))
    return out


def _seen(row: Evidence, part: Component, catalogue: EngineCatalogue, known: _Known) -> SetSeen:
    recorded = f"{row.exit.normalize():,f} {WORDS[cast(Unit, row.unit)]}"
    left = entry = 0.0
    good: float | None = None
    aside = _put_aside(row, known)
    try:
        left, entry, good = _reference(row, part, catalogue)
    except NoReference as why:
        aside = aside or str(why)
    seen = SetSeen(
        key=str(row.pk),
        teardown=_teardown(row),
        engine=_engine(row),
        engine_type=row.type_code,
        duty=row.duty,
        tier=row.tier,
        outcome=cast(Outcome, row.outcome),
        entry=entry,
        left=left,
        seen_good=good,
        on=row.on,
        recorded=recorded,
        put_aside=aside,
        source=_source(row),
    )
    return replace(seen, put_aside=aside or seen.fault)


def _reference(
    row: Evidence, part: Component, catalogue: EngineCatalogue
) -> tuple[float, float, float | None]:
    """Age when seen last, when it came under observation, and when it was last within limits."""
    if row.ran is not None:
        left, entry = row.ran, row.ran_at_entry or 0.0
        per_unit = left / float(row.exit) if row.exit else 0.0
    else:
        per_unit = wear_per_unit(part, cast(Unit, row.unit), row.duty, row.tier, catalogue)
        left, entry = float(row.exit) * per_unit, float(row.entry) * per_unit
    if row.seen_good_at is None:
        return left, entry, None
    return left, entry, entry if row.seen_good_at == row.entry else float(row.seen_good_at) * per_unit


def _put_aside(row: Evidence, known: _Known) -> str:
    """Why a row does not count: withdrawn, or counted elsewhere already."""
    if row.withdrawn_at is not None:
        return say("withdrawn by {name}: {because}", name=row.withdrawn_by, because=row.withdrawn_because)
    if row.job is None or row.failure is not None:
        return ""
    place = row.job.engine_id, row.component
    return _still_runs(row, place, known) if row.outcome == "sound" else _was_reported(row, place, known)


def _still_runs(row: Evidence, place: _Place, known: _Known) -> str:
    """A part that still runs counts by its own run where it is, and not twice."""
    last_out = known.out.get(place)
    if last_out is None or last_out < row.on:
        return say("still runs in {engine}: counted there by its own run", engine=_engine(row))
    return ""


def _was_reported(row: Evidence, place: _Place, known: _Known) -> str:
    """A failure that was reported, and seen again at the strip-down that it led to, is one failure."""
    for on, looked_at_in in known.reported.get(place, ()):
        between = any(on <= day < row.on for day in known.looked[place])
        if looked_at_in == row.job_id or (on <= row.on and not between):
            return say("the failure that was reported on {day}", day=on)
    return ""


def _engine(row: Evidence) -> str:
    engine = row.job.engine if row.job else row.failure.engine if row.failure else None
    return str(engine.number or say("no number")) if engine else row.engine_name


def _source(row: Evidence) -> str:
    """The job or the report that it comes from; of earlier years the book, and who entered it."""
    if row.failure:
        return say("failure report of {day}", day=row.failure.on)
    if row.job:
        return str(row.job.number)
    entered = ""
    if row.by and row.at:
        entered = say("entered by {name} on {day}", name=name_of(row.by), day=timezone.localdate(row.at))
    return "; ".join(filter(None, (row.source, entered)))


def _teardown(row: Evidence) -> str:
    """What one strip-down is known by: the job, the report, or engine and day of an earlier one."""
    if row.failure_id:
        return f"failure:{row.failure_id}"
    return f"job:{row.job_id}" if row.job_id else f"earlier:{row.engine_name}:{row.on.isoformat()}"
