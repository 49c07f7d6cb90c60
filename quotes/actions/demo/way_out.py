"""How an engine of the demo leaves the bench: its record, tests, last look, release, and its first report."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from quotes.actions.bench.after import Reported, report_service
from quotes.actions.bench.record import Written, close_record, keep_entry
from quotes.actions.bench.releasing import HandedOver, release
from quotes.actions.bench.testing import Looked, RunResults, keep_check, keep_run
from quotes.actions.demo.bench_day import BenchDay
from quotes.calc.bench.assembly.requirements import Requirement
from quotes.calc.bench.leaving.final_questions import QUESTIONS
from quotes.calc.bench.teardown.units_read import units_for
from quotes.calc.demo.year import Act
from quotes.queries.bench.ages.new_lives import new_lives_of
from quotes.queries.bench.assembly.record import JobRecord, job_record


def _record(day: BenchDay) -> None:
    """The assembly record, entry by entry, the checks by a second person last; then it is closed."""
    record = job_record(day.job)
    for one, place in sorted(_asked(record), key=lambda each: each[0].kind == "second"):
        _write(day, record, one, place)
    close_record(job=day.job, by=day.builder, now=day.at)


def _begin_record(day: BenchDay) -> None:
    """The first half of it, without what a second person looks at."""
    record = job_record(day.job)
    asked = [each for each in _asked(record) if each[0].kind != "second"]
    for one, place in asked[: len(asked) // 2]:
        _write(day, record, one, place)


def _asked(record: JobRecord) -> list[tuple[Requirement, str]]:
    return [
        (one, place)
        for one in record.requirements
        for place in one.places
        if (one.code, place) not in record.read
    ]


def _write(day: BenchDay, record: JobRecord, one: Requirement, place: str) -> None:
    written = Written(
        requirement=one.code,
        place=place,
        entered=day.told.as_built.get(one.code) or _middle(one),
        unit=units_for(one.unit)[0] if one.kind == "figure" else "",
        batch=f"{day.given.engine[:2]}-{day.on:%y%m}" if one.numbered else "",
    )
    by = day.owner if one.kind == "second" else day.builder
    key = day.key("record", one.code, place)
    keep_entry(job=day.job, written=written, key=key, by=by, now=day.at, record=record)


def _middle(one: Requirement) -> str:
    """Half way between its limits, or just inside the only one; nothing where it has none."""
    low, high = (one.within.low, one.within.high) if one.within else (None, None)
    if low is not None and high is not None:
        return f"{(low + high) / 2:f}"
    if low is not None:
        return f"{low * Decimal('1.1'):f}"
    return f"{high / 2:f}" if high is not None else ""


def _try_out(day: BenchDay) -> None:
    """What was run, and the last look."""
    way_out = day.told.way_out
    for number, run in enumerate(way_out.tests):
        given = RunResults(
            name=run.name,
            on=day.on,
            values=run.values,
            dyno=run.dyno,
            correction=run.correction,
            note=run.note,
        )
        keep_run(job=day.job, run=given, key=day.key("test", number), by=day.builder, now=day.at)
    looked = Looked(
        said={one.code: "yes" for one in QUESTIONS},
        notes={},
        done=tuple(one.component for one in new_lives_of(day.job)),
        rings=way_out.rings,
        bore=way_out.bore,
    )
    keep_check(job=day.job, looked=looked, key=day.key("last look"), by=day.builder, now=day.at)


def _release(day: BenchDay) -> None:
    way_out = day.told.way_out
    given = HandedOver(
        released_to=day.told.brought_by,
        shown="known here",
        old_parts="returned",
        seal=way_out.seal,
    )
    release(job=day.job, given=given, by=day.desk, now=day.at)


def _report_service(day: BenchDay) -> None:
    """The customer writes on his page what it has run since."""
    amount, unit = day.told.way_out.run_since.split()
    told = Reported(
        amount=Decimal(amount),
        unit=unit,
        on=day.on,
        name=day.told.brought_by,
        how="on his page",
        oil_used="none to be seen",
        filter_seen="cut open at 100 miles: clean",
    )
    report_service(engine=day.quote.engine, told=told, key=day.key("service"), now=day.at)


WAY_OUT: Mapping[Act, Callable[[BenchDay], None]] = {
    "begin_record": _begin_record,
    "record": _record,
    "try_out": _try_out,
    "release": _release,
    "report_service": _report_service,
}
