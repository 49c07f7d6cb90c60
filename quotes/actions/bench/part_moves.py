"""Parts with an age of their own on the move: into an engine, out of it, made younger, scrapped."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import cast

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.refused import Refused
from quotes.actions.saving import save_checked
from quotes.calc.ask.request import Unit
from quotes.calc.bench.ages.reconditioned import counts_for
from quotes.calc.bench.ages.reconditioned import recondition as reconditioned
from quotes.calc.bench.ages.run_in_stays import history_of
from quotes.calc.bench.ages.stays import CannotMove, InEngine, PartLife
from quotes.calc.bench.ages.stays import fit as fitted
from quotes.calc.bench.ages.stays import scrap as scrapped
from quotes.calc.bench.ages.stays import take_out as taken_out
from quotes.calc.bench.said import exact
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.unit_words import plain_figure
from quotes.models import Engine, Job, LifedPart, PartStay
from quotes.queries.bench.ages.lifed_parts import engine_met, life_today, marked_alike
from quotes.queries.engines import known_catalogue
from quotes.queries.people import name_of


class NotMoved(Refused):
    """The part stays where it is."""


@dataclass(frozen=True, slots=True)
class MovedWhen:
    """When a part is moved, and at how much service of the engine: None: as much as is known of it."""

    on: date
    service: Decimal | None = None
    alike: bool = False
    """Move what bears the same mark with it, such as the valves in a head."""


@transaction.atomic
def fit(*, part: LifedPart, engine: Engine, move: MovedWhen, by: User, now: datetime) -> PartStay:
    """Put a part into an engine. Fitted there already: the stay that stands.

    NotMoved says why not, ValidationError by field.
    """
    _refuse_day(move.on, now)
    engine = Engine.objects.select_for_update(of=("self",)).get(pk=engine.pk)
    met = _met(engine, None, move.service)
    others = marked_alike(part) if move.alike else []
    stay, *_ = [_fit(_locked(each), engine, met, move.on, by) for each in (part, *others)]
    return stay


def _fit(row: LifedPart, engine: Engine, met: InEngine, on: date, by: User) -> PartStay:
    if standing := row.stays.filter(engine=engine, until_on=None).first():
        return standing
    there = PartStay.objects.filter(engine=engine, part__component=row.component, until_on=None)
    if other := there.select_related("part").first():
        raise NotMoved(
            say(
                "Engine {engine} holds {serial} in that place: take it out there first.",
                engine=engine,
                serial=other.part.serial,
            )
        )
    _or_refuse(lambda: fitted(life_today(row), met, on))
    return save_checked(
        PartStay(
            part=row,
            engine=engine,
            job=_visit(engine, on),
            unit=met.unit,
            from_on=on,
            from_amount=met.service,
            fitted_by=name_of(by),
        )
    )


@transaction.atomic
def take_out(*, part: LifedPart, move: MovedWhen, by: User, now: datetime) -> PartStay:
    """Take a part out of its engine. NotMoved says why not, ValidationError by field."""
    _refuse_day(move.on, now)
    others = marked_alike(part) if move.alike else []
    stay, *_ = [_take_out(_locked(each), move, by) for each in (part, *others)]
    return stay


def _visit(engine: Engine, on: date) -> Job | None:
    """The job that the engine is here for, where it was here on that day already."""
    job = Job.objects.in_the_shop().filter(engine=engine).first()
    return job if job is not None and timezone.localdate(job.received_at) <= on else None


def _take_out(row: LifedPart, move: MovedWhen, by: User) -> PartStay:
    stay = row.stays.select_related("engine").filter(until_on=None).first()
    if stay is None:
        raise NotMoved(say("{serial} is in no engine: it lies on the shelf already.", serial=row.serial))
    met = _met(stay.engine, cast(Unit, str(stay.unit)), move.service)
    life = _or_refuse(lambda: taken_out(life_today(row), met, move.on))
    stay.until_on, stay.until_amount = move.on, life.stays[-1].end
    stay.taken_out_by = name_of(by)
    return save_checked(stay)


@transaction.atomic
def scrap(*, part: LifedPart, on: date, now: datetime) -> LifedPart:
    """A part is gone for good; once more gives the row as it stands. NotMoved while it is in an engine."""
    row = _locked(part)
    if row.scrapped_on is not None:
        return row
    _refuse_day(on, now)
    _or_refuse(lambda: scrapped(life_today(row), on))
    row.scrapped_on = on
    return save_checked(row)


@transaction.atomic
def recondition(*, part: LifedPart, on: date, by: User, now: datetime) -> LifedPart:
    """A part was made younger by machine work; in an engine it goes on there with what is left of its age.

    NotMoved says why not, ValidationError by field.
    """
    row = _locked(part)
    _refuse_day(on, now)
    catalogue = known_catalogue(row.type_code)
    life = life_today(row, catalogue)
    share = counts_for(history_of(life, catalogue), row.component, catalogue, on) if catalogue else None
    if share is None:
        raise NotMoved(
            say(
                "Nothing is known that would make {serial} younger: it is renewed or left.", serial=row.serial
            )
        )
    stay = row.stays.select_related("engine").last()
    inside = stay is not None and stay.until_on is None
    met = _met(stay.engine, cast(Unit, str(stay.unit)), None) if stay and inside else None
    _or_refuse(lambda: reconditioned(life, share, met, on))
    assert stay is not None
    if inside:
        stay = _take_out(row, MovedWhen(on), by)
    stay.reconditioned_on, stay.counts_for = on, share
    save_checked(stay)
    if met is not None:
        _fit(_locked(row), stay.engine, met, on, by)
    return row


def recondition_held(*, job: Job, components: Collection[str], by: User, now: datetime) -> None:
    """What a job reconditioned of the parts that its engine holds; what was entered before stands."""
    came = timezone.localdate(job.received_at)
    held = PartStay.objects.filter(engine=job.engine_id, until_on=None, part__component__in=components)
    for stay in held.exclude(part__stays__reconditioned_on__gte=came).select_related("part"):
        recondition(part=stay.part, on=timezone.localdate(now), by=by, now=now)


def _locked(part: LifedPart) -> LifedPart:
    return LifedPart.objects.select_for_update(of=("self",)).get(pk=part.pk)


def _refuse_day(on: date, now: datetime) -> None:
    today = timezone.localdate(now)
    if on > today:
        raise ValidationError(
            {"on": say("{on} has not come yet: today, {today}, or earlier.", on=on, today=today)}
        )


def _met(engine: Engine, unit: Unit | None, service: Decimal | None) -> InEngine:
    """The engine at its service, which is never more than is known of it."""
    known = engine_met(engine, unit)
    if known is None:
        raise NotMoved(
            say(
                "Nobody knows how far engine {engine} has run: write that on its record first, for a "
                "part's age is what its engines ran.",
                engine=engine,
            )
        )
    if service is None:
        return known
    if service > known.service:
        raise ValidationError({"service": _too_far(service, known)})
    return InEngine(known.key, known.name, known.type_code, service, known.unit)


def _too_far(service: Decimal, known: InEngine) -> str:
    return say(
        "“{given}” is more than that: at most {most} {unit}, which it is known to have run.",
        given=exact(service),
        most=plain_figure(known.service),
        unit=say(WORDS[known.unit]),
    )


def _or_refuse(move: Callable[[], PartLife]) -> PartLife:
    try:
        return move()
    except CannotMove as why:
        raise NotMoved(str(why)) from None
