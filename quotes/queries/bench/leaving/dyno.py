"""What the dyno has read of an engine, from the tests of its jobs."""

from __future__ import annotations

from quotes.calc.ask.request import MeasuredPower
from quotes.calc.bench.leaving.dyno import PowerRead, PowerRun, powers_read
from quotes.models import Engine, Release, TestRun
from quotes.queries.bench.leaving.way_out import POWER_AFTER, POWER_BEFORE
from quotes.queries.engines import known_catalogue


def powers_of(engine: Engine) -> tuple[PowerRead, ...]:
    """Every power that was read of an engine, the latest first; one at most stands for it as it is."""
    rows = list(
        TestRun.objects.filter(job__engine=engine, name__in=(POWER_BEFORE, POWER_AFTER)).select_related("job")
    )
    if not rows:
        return ()
    released = dict(Release.objects.filter(job__engine=engine).values_list("job_id", "at"))
    runs = [
        PowerRun(
            after=row.name == POWER_AFTER,
            on=row.on,
            at=row.at,
            values=row.values,
            dyno=row.dyno,
            correction=row.correction,
            job=row.job.number,
            released_at=released.get(row.job_id),
        )
        for row in rows
    ]
    catalogue = known_catalogue(engine.type_code)
    return powers_read(runs, list(released.values()), engine.fitted or None, catalogue)


def measured_power(engine: Engine) -> MeasuredPower | None:
    """The power that stands for the engine as it is tuned now; None where none was measured."""
    return next((read.measured for read in powers_of(engine) if not read.why_not), None)
