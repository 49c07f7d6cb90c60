"""Powers read on the dyno in an engine's life: which of them stands for the engine as it is now, and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from itertools import pairwise

from pydantic import ValidationError

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say
from quotes.calc.ask.dyno_faults import power_faults
from quotes.calc.ask.request import MeasuredPower
from quotes.calc.bench.leaving.powers import PEAK_POWER, peak_of
from quotes.calc.sheet.tune_words import measured_in_words


@dataclass(frozen=True, slots=True)
class PowerRun:
    """A power test, before the work or after it; `released_at`: when its job was handed over."""

    after: bool
    on: date
    at: datetime
    values: Sequence[Sequence[str]]
    dyno: str
    correction: str
    job: str
    released_at: datetime | None


@dataclass(frozen=True, slots=True)
class PowerRead:
    """A power as it was read, in words, and why it does not stand for the engine; empty where it does."""

    measured: MeasuredPower
    words: str
    job: str
    why_not: str = ""


def powers_read(
    runs: Sequence[PowerRun],
    releases: Sequence[datetime],
    tier: str | None,
    catalogue: EngineCatalogue | None,
) -> tuple[PowerRead, ...]:
    """Every power that was read, the latest first; one at most stands, since only the latest can.

    `releases` are the hand-overs of the engine after a build, `tier` the tune that is fitted now.
    """
    found: list[PowerRead] = []
    stood = False
    for run in sorted(runs, key=lambda run: (run.on, run.at), reverse=True):
        measured = _measured(run, tier)
        if measured is None:
            continue
        why = say("a later one stands") if stood else _why_not(run, measured, releases, catalogue)
        stood = stood or not why
        found.append(PowerRead(measured, measured_in_words(measured), run.job, why))
    return tuple(found)


def _why_not(
    run: PowerRun,
    measured: MeasuredPower,
    releases: Sequence[datetime],
    catalogue: EngineCatalogue | None,
) -> str:
    if run.after and run.released_at is None:
        return say("its build has not been handed over yet")
    since = run.released_at if run.after and run.released_at else run.at
    if any(release > since for release in releases):
        return say("the engine has been built anew since")
    return _impossible(measured, catalogue)


def why_impossible(run: PowerRun, catalogue: EngineCatalogue | None) -> str:
    """Why no engine of the type gives that power; empty where one may, or where none was read."""
    measured = _measured(run, None)
    return _impossible(measured, catalogue) if measured else ""


def _impossible(measured: MeasuredPower, catalogue: EngineCatalogue | None) -> str:
    faults = tuple(power_faults(measured, catalogue, measured.on)) if catalogue else ()
    if not faults:
        return ""
    return say("{value} can't be so: {allowed}", value=faults[0].value, allowed=faults[0].allowed)


def _measured(run: PowerRun, tier: str | None) -> MeasuredPower | None:
    pull = peak_of(run.values, run.dyno, run.correction)
    if pull is None:
        return None
    told = {
        "figure": pull.figure,
        "unit": pull.unit,
        "rpm": _revs(run.values),
        "on": run.on,
        "dyno": run.dyno,
        "correction": run.correction,
        "tier": tier,
    }
    try:
        return MeasuredPower.model_validate(told)
    except ValidationError:
        return None


def _revs(values: Sequence[Sequence[str]]) -> Decimal | None:
    """The revs noted in the row after the peak."""
    for (name, _, _), (after, figure, unit) in pairwise(values):
        if name == PEAK_POWER and after == "at" and unit == "rpm":
            try:
                revs = Decimal(figure)
            except InvalidOperation:
                return None
            return revs if revs > 0 else None
    return None
