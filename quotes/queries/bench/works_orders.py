"""Machine work out and back: what is away, and what has been taken off an engine over its life."""

from __future__ import annotations

from datetime import date

from quotes.calc.bench.taken_off import RunningTotal, Taken, running_totals
from quotes.models import Job, WorksOrder
from quotes.models.bench.work import WorksOrderQuerySet
from quotes.queries.bench.job_lines import JobLine

IN_WORDS = {"skim": "skimmed", "regrind": "reground", "replate": "replated", "seat_cut": "seats cut"}


def orders_out() -> WorksOrderQuerySet:
    """What is away, the longest expected first."""
    return (
        WorksOrder.objects.out().select_related("job__engine", "job__customer").order_by("expected_on", "pk")
    )


def taken_off(engine_id: int) -> tuple[RunningTotal, ...]:
    """What all machine work that came back sound has taken off one engine, whoever sent it out."""
    rows = WorksOrder.objects.filter(job__engine=engine_id, sound=True).exclude(taken_off="")
    return running_totals(
        Taken(kind, component, depth)  # type: ignore[arg-type]
        for kind, component, depth in rows.order_by("back_on", "pk").values_list(
            "taken_off", "component", "taken_off_mm"
        )
    )


def totals_in_words(engine_id: int) -> tuple[str, ...]:
    """The running totals as sentences; empty for an engine that has lost nothing here."""
    return tuple(_sentence(total) for total in taken_off(engine_id))


def _sentence(total: RunningTotal) -> str:
    times = "once" if total.times == 1 else f"{total.times} times"
    depth = f", {total.depth_mm.normalize():f} mm in all" if total.depth_mm else ""
    name = total.component.replace("_", " ").capitalize()
    limit = " One maker allows no second replating: ask the maker of this one." if total.is_spent else ""
    return f"{name}: {IN_WORDS[total.kind]} {times}{depth}.{limit}"


def job_line(job: Job, on: date) -> JobLine | None:
    """Machine work on the job's page: how many are away, and the next expected."""
    rows = list(WorksOrder.objects.filter(job=job).order_by("expected_on"))
    out = [row for row in rows if row.back_on is None]
    if out:
        late = "late since" if out[0].expected_on < on else "expected"
        words = f"{len(out)} out, the next {late} {out[0].expected_on.day} {out[0].expected_on:%B}"
    else:
        words = f"{len(rows)} back" if rows else "none sent out"
    return JobLine(
        title="Machine work",
        words=words,
        url_name="works-order-list",
        args=(job.pk,),
        waits=bool(out),
    )
