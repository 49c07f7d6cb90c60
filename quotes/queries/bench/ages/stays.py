"""Lifed parts as the sums know them: what each has run, in whichever engines, and what an engine holds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cached_property
from typing import cast

from django.db.models import Prefetch, QuerySet
from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Carried, EngineAsked, Segment, Unit
from quotes.calc.bench.ages.run_in_stays import history_of, service_in
from quotes.calc.bench.ages.stays import InEngine, PartLife, Stay
from quotes.calc.bench.stated import in_unit
from quotes.calc.life.units import CannotConvert
from quotes.models import Engine, Job, LifedPart, PartStay, Workshop
from quotes.queries.engines import known_catalogue, stretches_of


def with_lives(stays: QuerySet[PartStay]) -> QuerySet[PartStay]:
    """Stays with all that their parts have run, in a number of queries that does not grow with them."""
    return stays.select_related("part", "job").prefetch_related("part__stays__engine__segments")


def parts_of_engines() -> Prefetch[str]:
    """What `carried_by` asks of an engine, fetched for many engines at once."""
    return Prefetch("part_stays", with_lives(PartStay.objects.all()))


def holds_lifed_parts(engine: Engine) -> bool:
    """Whether any part in it has an age of its own: one query, and most engines need no more."""
    return PartStay.objects.filter(engine=engine, until_on=None).exists()


@dataclass(frozen=True)
class EngineNow:
    """An engine with its record as far as it is known today, reports since the hand-over too."""

    engine: Engine
    recorded: EngineAsked
    known: EngineCatalogue | None = None
    """Its catalogue, where it was read already."""

    @cached_property
    def catalogue(self) -> EngineCatalogue | None:
        return self.known or known_catalogue(self.engine.type_code)

    @property
    def unit(self) -> Unit:
        """The unit in which its service is written from now on."""
        if self.recorded.history:
            return self.recorded.history[-1].unit
        told = [job.service_unit for job in self.engine.jobs.all() if job.service_unit]
        return cast(Unit, str(told[0] if told else Workshop.objects.get_or_default().distance_unit))

    @property
    def duty(self) -> str:
        """What it was brought in for last."""
        return next((job.duty for job in self.engine.jobs.all() if job.duty), "")

    def service(self, unit: Unit) -> Decimal | None:
        """The most that is known of how far it has run, so that it never falls; None where nothing is."""
        if self.catalogue is None:
            return None
        jobs = [job for job in self.engine.jobs.all() if job.service_amount is not None]
        known = [in_unit(job.service_amount or Decimal(0), str(job.service_unit), unit) for job in jobs]
        if self.recorded.history is not None:
            try:
                known.append(service_in(self.recorded.history, unit, self.catalogue))
            except CannotConvert:
                return None
        return max((amount for amount in known if amount is not None), default=None)

    def met(self, unit: Unit | None = None, service: Decimal | None = None) -> InEngine | None:
        """The engine as a part meets it, at its service now unless another is told."""
        said_in = unit or self.unit
        known = self.service(said_in) if service is None else service
        if known is None:
            return None
        return InEngine(self.engine.pk, str(self.engine), self.engine.type_code, known, said_in)


def life_of(part: LifedPart, now: EngineNow | None) -> PartLife:
    """A part with all its stays; `now` is the engine that it is in, if any."""
    return PartLife(
        serial=part.serial,
        type_code=part.type_code,
        before=_before(part),
        stays=tuple(_stay(row, now) for row in part.stays.all()),
        scrapped_on=part.scrapped_on,
    )


def _before(part: LifedPart) -> tuple[Segment, ...] | None:
    if part.ran_before is None:
        return None
    if not part.ran_before:
        return ()
    unit = cast(Unit, str(part.ran_before_unit))
    return (Segment(amount=part.ran_before, unit=unit, duty=part.ran_before_duty),)


def _stay(row: PartStay, now: EngineNow | None) -> Stay:
    unit = cast(Unit, str(row.unit))
    here = now if row.until_on is None and now is not None and now.engine.pk == row.engine_id else None
    return Stay(
        engine=row.engine_id,
        name=str(row.engine),
        unit=unit,
        start=row.from_amount,
        from_on=row.from_on,
        end=row.until_amount,
        until_on=row.until_on,
        now=here.service(unit) if here else None,
        history=(here.recorded.history or ()) if here else stretches_of(row.engine),
        duty=here.duty if here else "",
        tier=(here.engine.fitted if here else "") or "refresh",
        counts_for=row.counts_for,
    )


def carried_by(now: EngineNow, stays: Iterable[PartStay] | None = None) -> dict[str, Carried]:
    """The parts that an engine holds with ages of their own, by component; `stays` where not those of today.

    One whose component was renewed after it was fitted is not in there any more, whatever was forgotten.
    """
    if stays is None:
        stays = [row for row in now.engine.part_stays.all() if row.until_on is None]
    found: dict[str, Carried] = {}
    for row in stays:
        if now.catalogue is None or renewed_since(row, now.recorded):
            continue
        life = _upto(life_of(row.part, now), row)
        history = history_of(life, now.catalogue)
        found[row.part.component] = Carried(serial=life.serial, history=history, cycles=life.cycles)
    return found


def _upto(life: PartLife, last: PartStay) -> PartLife:
    """The part as it was in that stay, without later ones."""
    kept = [row.pk for row in last.part.stays.all()].index(last.pk) + 1
    return PartLife(life.serial, life.type_code, life.before, life.stays[:kept], life.scrapped_on)


def renewed_since(stay: PartStay, recorded: EngineAsked) -> bool:
    """Whether the engine's record says that a new one was fitted after this part was."""
    renewal = recorded.renewed.get(stay.part.component)
    if renewal is None or renewal.on is None or _in_one_visit(stay, renewal.on):
        return False  # without a day it may be what is left of an age after reconditioning
    at = in_unit(renewal.at, renewal.unit, str(stay.unit))
    return at is not None and at > stay.from_amount


def _in_one_visit(stay: PartStay, renewed_on: date) -> bool:
    """Whether the part was fitted at the visit that noted the renewal: then it is what was fitted."""
    if stay.job is None or renewed_on < stay.from_on:
        return False
    return stay.job.left_at is None or renewed_on <= timezone.localdate(stay.job.left_at)


def carried_at(job: Job, now: EngineNow) -> dict[str, Carried]:
    """The parts that the engine came in with, though they may have been changed on the bench since."""
    came = timezone.localdate(job.received_at)
    rows = [
        row
        for row in now.engine.part_stays.all()
        if row.job_id != job.pk and row.from_on <= came and (row.until_on is None or row.until_on >= came)
    ]
    return carried_by(now, rows)
