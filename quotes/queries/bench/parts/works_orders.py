"""Machine work out and back: what is away, and what has been taken off an engine over its life."""

from __future__ import annotations

from datetime import date

from catalogue.calc.said import say, to_say
from quotes.calc.bench.parts.taken_off import MachinedOff, RunningTotal, running_totals
from quotes.calc.bench.said import exact, said_day_and_month
from quotes.models import Job, WorksOrder
from quotes.models.bench.work import WorksOrderQuerySet
from quotes.queries.bench.job_lines import JobLine

IN_WORDS = {
    "skim": to_say("skimmed"),
    "regrind": to_say("reground"),
    "replate": to_say("replated"),
    "seat_cut": to_say("seats cut"),
}


def orders_out() -> WorksOrderQuerySet:
    """What is away, the longest expected first."""
    return (
        WorksOrder.objects.out().select_related("job__engine", "job__customer").order_by("expected_on", "pk")
    )


def taken_off(engine_id: int) -> tuple[RunningTotal, ...]:
    """What all machine work that came back sound has taken off one engine, whoever sent it out."""
    rows = WorksOrder.objects.filter(job__engine=engine_id, sound=True).exclude(taken_off="")
    return running_totals(
        MachinedOff(kind, component, depth)  # type: ignore[arg-type]
        for kind, component, depth in rows.order_by("back_on", "pk").values_list(
            "taken_off", "component", "taken_off_mm"
        )
    )


def totals_in_words(engine_id: int) -> tuple[str, ...]:
    """The running totals as sentences; empty for an engine that has lost nothing here."""
    return tuple(_sentence(total) for total in taken_off(engine_id))


def _sentence(total: RunningTotal) -> str:
    places = {
        "name": total.component.replace("_", " ").capitalize(),
        "how": say(IN_WORDS[total.kind]),
        "times": say("once") if total.times == 1 else say("{count} times", count=total.times),
    }
    if total.depth_mm:
        depth = exact(total.depth_mm.normalize())
        said = say("{name}: {how} {times}, {depth} mm in all.", depth=depth, **places)
    else:
        said = say("{name}: {how} {times}.", **places)
    if not total.is_spent:
        return said
    return say("{said} One maker allows no second replating: ask the maker of this one.", said=said)


def _away(out: list[WorksOrder], on: date) -> str:
    places = {"count": len(out), "day": said_day_and_month(out[0].expected_on)}
    if out[0].expected_on < on:
        return say("{count} out, the next late since {day}", **places)
    return say("{count} out, the next expected {day}", **places)


def _back(rows: list[WorksOrder]) -> str:
    return say("{count} back", count=len(rows)) if rows else say("none sent out")


def job_line(job: Job, on: date) -> JobLine | None:
    """Machine work on the job's page: how many are away, and the next expected."""
    rows = list(WorksOrder.objects.filter(job=job).order_by("expected_on"))
    out = [row for row in rows if row.back_on is None]
    return JobLine(
        title=say("Machine work"),
        words=_away(out, on) if out else _back(rows),
        url_name="works-order-list",
        args=(job.pk,),
        waits=bool(out),
    )
