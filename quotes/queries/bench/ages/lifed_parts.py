"""Lifed parts for the pages: where each is, how old it is, and everywhere it has been."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Prefetch, QuerySet

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.calc.ask.request import EngineAsked, Segment, Unit
from quotes.calc.bench.ages.part_age import age_in_words
from quotes.calc.bench.ages.reconditioned import has_run_since
from quotes.calc.bench.ages.run_in_stays import history_of, ran_in
from quotes.calc.bench.ages.stays import InEngine, PartLife
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.words import listed
from quotes.models import Engine, Job, LifedPart, PartStay
from quotes.queries.bench.ages.after import engine_now, recorded_now, with_after
from quotes.queries.bench.ages.stays import EngineNow, holds_lifed_parts, life_of, renewed_since
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.engines import known_catalogue

MOST = 500
"""So many parts a list shows."""


def lifed_components(type_code: str) -> dict[str, str]:
    """Code and name of what may carry an age of its own in an engine type, in the order of the catalogue."""
    catalogue = known_catalogue(type_code)
    return _lifed(catalogue) if catalogue else {}


def _lifed(catalogue: EngineCatalogue) -> dict[str, str]:
    return {
        code: one.name
        for code, one in catalogue.components.items()
        if one.lives and one.judged_by != "disturbed" and not one.service_item
    }


def engine_met(engine: Engine, unit: Unit | None = None) -> InEngine | None:
    """An engine at its own service today; None where nobody knows that."""
    return EngineNow(engine, recorded_now(engine)).met(unit)


def life_today(part: LifedPart, known: EngineCatalogue | None = None) -> PartLife:
    """A part with its stays, the open one up to its engine's service today; `known` where it was read."""
    stay = next((row for row in part.stays.all() if row.until_on is None), None)
    return life_of(part, EngineNow(stay.engine, recorded_now(stay.engine), known) if stay else None)


@dataclass(frozen=True, slots=True)
class StaySeen:
    """One stay for the logbook of a part, with what it ran there in words."""

    row: PartStay
    ran: str

    @property
    def counts_for(self) -> str:
        """Which share of its age counts on, where it was reconditioned after that."""
        share = self.row.counts_for
        return "" if share is None else f"{round_half_up(share * 100, 0):f}\N{NO-BREAK SPACE}%"


@dataclass(frozen=True, slots=True)
class PartSeen:
    """A part as the pages show it."""

    row: LifedPart
    name: str
    type_name: str
    engine: Engine | None
    age: str
    stays: tuple[StaySeen, ...]
    mendable: bool = False
    """Whether machine work can make it younger, and there is something to make younger."""
    forgotten: str = ""
    """What the engine's record says against its being in there still."""


def parts_seen(*, scrapped: bool = False) -> list[PartSeen]:
    """The parts, those in use unless it is asked for what is gone; in a constant number of queries."""
    rows = LifedPart.objects.filter(scrapped_on__isnull=not scrapped)
    return _all_seen(_with_stays(rows)[:MOST])


def part_seen(pk: int) -> PartSeen | None:
    """One part with everywhere it has been."""
    return next(iter(_all_seen(_with_stays(LifedPart.objects.filter(pk=pk)))), None)


def parts_in(engine: Engine) -> list[PartSeen]:
    """What an engine holds with an age of its own."""
    rows = LifedPart.objects.filter(stays__engine=engine, stays__until_on=None)
    return _all_seen(_with_stays(rows))


def parts_on_shelf(type_code: str) -> list[PartSeen]:
    """Parts of an engine type that are in no engine."""
    rows = LifedPart.objects.filter(type_code=type_code, scrapped_on=None)
    return _all_seen(_with_stays(rows.exclude(stays__in=PartStay.objects.filter(until_on=None)))[:MOST])


def job_line(job: Job, on: date) -> JobLine | None:
    """The parts in a job's engine that have ages of their own; nothing where there are none."""
    rows = PartStay.objects.filter(engine=job.engine_id, until_on=None).select_related("part")
    found = [row.part for row in rows]
    if not found:
        return None
    names = lifed_components(job.engine.type_code)
    words = "; ".join(f"{names.get(part.component, part.component)} {part.serial}" for part in found)
    return JobLine(say("Lifed parts"), words, "lifed-parts-in", (job.engine_id,))


def moved_since(engine: Engine, asked: EngineAsked) -> str:
    """Which parts were moved since a request was put together, in words; nothing where it still holds."""
    if not asked.carried and not holds_lifed_parts(engine):
        return ""
    names = lifed_components(engine.type_code)
    then = {code: part.serial for code, part in asked.carried.items()}
    now = {code: part.serial for code, part in engine_now(engine).carried.items()}
    moved = [f"{names.get(code, code)} {mark}" for code, mark in now.items() if then.get(code) != mark]
    gone = [f"{names.get(code, code)} {mark}" for code, mark in then.items() if now.get(code) != mark]
    said = [
        say("fitted {parts}", parts=listed(moved)) if moved else "",
        say("taken out {parts}", parts=listed(gone)) if gone else "",
    ]
    return "; ".join(filter(None, said))


def marked_alike(part: LifedPart) -> list[LifedPart]:
    """Others of the same mark that lie or sit where this one does, such as the valves in a head."""
    stay = part.stays.filter(until_on=None).first()
    rows = LifedPart.objects.filter(type_code=part.type_code, serial=part.serial, scrapped_on=None)
    rows = rows.exclude(pk=part.pk)
    if stay is None:
        return list(rows.exclude(stays__in=PartStay.objects.filter(until_on=None)))
    return list(rows.filter(stays__engine=stay.engine_id, stays__until_on=None))


def engines_for(part: LifedPart) -> list[Engine]:
    """Engines that a part may go into: those of its type, its owner's first."""
    rows = Engine.objects.filter(type_code=part.type_code).select_related("customer")
    mine = [row for row in rows if row.customer_id == part.owner_id]
    return [*mine, *(row for row in rows if row.customer_id != part.owner_id)]


def _with_stays(rows: QuerySet[LifedPart]) -> QuerySet[LifedPart]:
    engines = Prefetch("engine", with_after(Engine.objects.all()))
    stays = PartStay.objects.select_related("job").prefetch_related(engines)
    return rows.select_related("owner").prefetch_related(Prefetch("stays", stays))


def _all_seen(rows: Iterable[LifedPart]) -> list[PartSeen]:
    types = dict(engine_type_choices())
    found = list(rows)
    known = {code: known_catalogue(code) for code in sorted({row.type_code for row in found})}
    return [_seen(row, types, known[row.type_code]) for row in found]


def _seen(row: LifedPart, types: dict[str, str], catalogue: EngineCatalogue | None) -> PartSeen:
    life = life_today(row, catalogue)
    stay = next((one for one in row.stays.all() if one.until_on is None), None)
    name = _lifed(catalogue).get(row.component, row.component) if catalogue else row.component
    ran = [ran_in(one, catalogue) if catalogue else None for one in life.stays]
    return PartSeen(
        row=row,
        name=name,
        type_name=types.get(row.type_code, row.type_code),
        engine=stay.engine if stay else None,
        age=age_in_words(history_of(life, catalogue), catalogue) if catalogue else say("not known"),
        stays=tuple(
            StaySeen(one, _ran_in_words(one, history, catalogue))
            for one, history in zip(row.stays.all(), ran, strict=True)
        ),
        mendable=_mendable(row, life, catalogue),
        forgotten=_forgotten(stay, name) if stay else "",
    )


def _ran_in_words(
    stay: PartStay, history: tuple[Segment, ...] | None, catalogue: EngineCatalogue | None
) -> str:
    if catalogue is None:
        return ""
    if history is None or history:
        return age_in_words(history, catalogue)
    return say("nothing") if stay.until_on else say("nothing yet")


def _mendable(row: LifedPart, life: PartLife, catalogue: EngineCatalogue | None) -> bool:
    known = catalogue.components.get(row.component) if catalogue else None
    return known is not None and known.recondition is not None and bool(life.stays) and has_run_since(life)


def _forgotten(stay: PartStay, name: str) -> str:
    recorded = recorded_now(stay.engine)
    if not renewed_since(stay, recorded):
        return ""
    renewal = recorded.renewed[stay.part.component]
    at = f"{plain_figure(renewal.at)} {say(WORDS[renewal.unit])}"
    return say(
        "The record of engine {engine} has its {name} renewed at {at}: was this one taken out then?",
        engine=stay.engine,
        name=name,
        at=at,
    )
