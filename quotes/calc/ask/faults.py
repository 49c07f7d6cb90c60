"""What is wrong with a request: one fault for each field, with its value and what is allowed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from catalogue.calc.engine import Duty, EngineCatalogue
from catalogue.calc.said import say, say_figure
from quotes.calc.ask.dyno_faults import dyno_faults, not_after
from quotes.calc.ask.fault import Fault
from quotes.calc.ask.request import Observed, Request, Segment
from quotes.calc.life.stretches import in_unit
from quotes.calc.life.units import UNITS_OF_BASIS, WORDS, CannotConvert, per_basis, season
from quotes.calc.scope.grounds import grounds_for
from quotes.calc.scope.scope_faults import scope_faults
from quotes.calc.shop import Shop

MOST_SEASONS = 20
"""A service of more seasons than this is a slip of the finger."""


def faults(request: Request, catalogue: EngineCatalogue, shop: Shop) -> tuple[Fault, ...]:
    """Every fault of the request, in the order of its fields; empty when it can be worked out."""
    found = request_faults(request, catalogue, shop)
    return found or scope_faults(grounds_for(request, catalogue, shop))


def request_faults(request: Request, catalogue: EngineCatalogue, shop: Shop) -> tuple[Fault, ...]:
    """What is wrong with the request by itself, before any tier is looked at."""
    if not catalogue.components or not catalogue.operations:
        empty = say("load a catalogue, or enter components and operations")
        return (Fault("engine.type", request.engine.type, empty),)
    named = tuple(fault for check in _NAMES for fault in check(request, catalogue, shop))
    if named:
        return named
    return tuple(fault for check in _SENSE for fault in check(request, catalogue, shop))


def one_of(names: Iterable[str]) -> str:
    """What is allowed, where it is one of a list."""
    known = sorted(names)
    return say("one of {names}", names=", ".join(known)) if known else say("nothing yet")


Check = Callable[[Request, EngineCatalogue, Shop], Iterator[Fault]]


def _engine(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    if request.engine.type != catalogue.engine_type.code:
        yield Fault("engine.type", request.engine.type, one_of([catalogue.engine_type.code]))
    if request.engine.fitted is not None and request.engine.fitted not in catalogue.tiers:
        yield Fault("engine.fitted", request.engine.fitted, one_of(catalogue.tiers))
    for field, history in _pasts(request):
        for number, segment in enumerate(history):
            if segment.duty not in catalogue.duties:
                yield Fault(f"{field}.{number}.duty", segment.duty, one_of(catalogue.duties))
            if segment.tier not in catalogue.tiers:
                yield Fault(f"{field}.{number}.tier", segment.tier, one_of(catalogue.tiers))


def _pasts(request: Request) -> Iterator[tuple[str, tuple[Segment, ...]]]:
    """What the engine has run, and what each part has that brought an age of its own."""
    yield "engine.history", request.engine.history or ()
    for code, carried in request.engine.carried.items():
        yield f"engine.carried.{code}.history", carried.history or ()


def _planned(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    if request.planned.duty not in catalogue.duties:
        yield Fault("planned.duty", request.planned.duty, one_of(catalogue.duties))
    for tier in request.tiers:
        if tier not in catalogue.tiers:
            yield Fault("tiers", tier, one_of(catalogue.tiers))
    if len(set(request.tiers)) < len(request.tiers):
        yield Fault("tiers", ", ".join(request.tiers), say("each tier once"))
    if request.class_code is not None and request.class_code not in shop.classes:
        yield Fault("class", request.class_code, one_of(shop.classes))


def _components(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    named = [
        *(("engine.renewed", c) for c in request.engine.renewed),
        *(("engine.build_cycles", c) for c in request.engine.build_cycles),
        *(("engine.carried", c) for c in request.engine.carried),
        *((f"readings.{n}.component", r.component) for n, r in enumerate(request.readings)),
        *(("include", c) for c in request.include),
        *(("leave", c) for c in request.leave),
        *((f"refusals.{n}.component", r.component) for n, r in enumerate(request.refusals)),
    ]
    for tier, edits in request.edits.items():
        if tier not in catalogue.tiers:
            yield Fault("edits", tier, one_of(catalogue.tiers))
        named += [(f"edits.{tier}.include", c) for c in edits.include]
        named += [(f"edits.{tier}.leave", c) for c in edits.leave]
    for field, code in named:
        if code not in catalogue.components:
            allowed = say(
                "a component of the {engine}, such as {names}",
                engine=catalogue.engine_type.name,
                names=_some(catalogue),
            )
            yield Fault(field, code, allowed)


def _some(catalogue: EngineCatalogue) -> str:
    return ", ".join(list(catalogue.components)[:3])


def _seen(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    for field, observed, events in (("findings", request.findings, False), ("events", request.events, True)):
        for number, each in enumerate(observed):
            seen = each if isinstance(each, Observed) else Observed(id=each)
            finding = catalogue.findings.get(seen.id)
            if finding is None or not finding.counts_as(event=events):
                known = [c for c, f in catalogue.findings.items() if f.counts_as(event=events)]
                yield Fault(f"{field}.{number}", seen.id, one_of(known))
                continue
            places = [c for c in finding.any_of if c in catalogue.components]
            if places and finding.component in finding.renew and seen.component is None:
                yield Fault(
                    f"{field}.{number}.component",
                    say("not said"),
                    say("say which: {names}", names=one_of(places)),
                )
            elif seen.component is not None and places and seen.component not in places:
                yield Fault(f"{field}.{number}.component", seen.component, one_of(places))


def _history(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    for field, history in _pasts(request):
        yield from _one_past(field, history, request, catalogue)


def _one_past(
    past: str, history: tuple[Segment, ...], request: Request, catalogue: EngineCatalogue
) -> Iterator[Fault]:
    last_day = None
    for number, segment in enumerate(history):
        field = f"{past}.{number}"
        yield from _convertible(f"{field}.unit", segment, catalogue)
        if segment.start and segment.end and segment.end < segment.start:
            yield Fault(
                f"{field}.to", segment.end.isoformat(), say("a day not before {day}", day=segment.start)
            )
        for name, day in (("from", segment.start), ("to", segment.end)):
            if day is not None and day > request.on:
                yield Fault(f"{field}.{name}", day.isoformat(), not_after(request.on))
            if day is not None and last_day is not None and day < last_day:
                forward = say("history runs forward: not before {day}", day=last_day)
                yield Fault(f"{field}.{name}", day.isoformat(), forward)
        last_day = segment.end or segment.start or last_day


def _convertible(field: str, segment: Segment, catalogue: EngineCatalogue) -> Iterator[Fault]:
    duty = catalogue.duties[segment.duty]
    try:
        per_basis(segment.unit, duty)
    except CannotConvert as error:
        yield Fault(field, say(WORDS[segment.unit]), str(error))
        return
    yield from _has_lives(field, duty, catalogue)


def _has_lives(field: str, duty: Duty, catalogue: EngineCatalogue) -> Iterator[Fault]:
    lacking = [c.name for c in catalogue.components.values() if duty.basis not in c.lives]
    if lacking:
        allowed = say(
            "the {engine} has no lives in {unit} for {parts}: choose a duty it has lives for, or enter them "
            "in the catalogue",
            engine=catalogue.engine_type.name,
            unit=say(WORDS[UNITS_OF_BASIS[duty.basis]]),
            parts=", ".join(lacking[:3]),
        )
        yield Fault(field, duty.name, allowed)


def _service(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    planned, duty = request.planned, catalogue.duties[request.planned.duty]
    yield from _has_lives("planned.duty", duty, catalogue)
    unit = planned.unit or UNITS_OF_BASIS[duty.basis]
    try:
        share = per_basis(unit, duty)
    except CannotConvert as error:
        yield Fault("planned.unit", say(WORDS[unit]), str(error))
        return
    most = MOST_SEASONS * season(duty) / share
    if planned.amount is not None and float(planned.amount) > most:
        allowed = say(
            "at most {count} seasons of {duty}: {amount} {unit}",
            count=MOST_SEASONS,
            duty=duty.name,
            amount=say_figure(most, 0),
            unit=say(WORDS[unit]),
        )
        yield Fault("planned.amount", f"{planned.amount:,f}", allowed)
    if planned.amount is None and planned.events and planned.events > MOST_SEASONS * duty.season_events:
        meetings = MOST_SEASONS * duty.season_events
        allowed = say("at most {count} seasons: {meetings} meetings", count=MOST_SEASONS, meetings=meetings)
        yield Fault("planned.events", str(planned.events), allowed)


def _renewals(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    history = request.engine.history
    for code, renewal in request.engine.renewed.items():
        field = f"engine.renewed.{code}"
        if renewal.on is not None and renewal.on > request.on:
            yield Fault(f"{field}.on", renewal.on.isoformat(), not_after(request.on))
        if not history:
            continue
        try:
            total = sum(in_unit(segment, renewal, catalogue) for segment in history)
        except CannotConvert as error:
            yield Fault(f"{field}.unit", say(WORDS[renewal.unit]), str(error))
            continue
        if float(renewal.at) > total + 1e-9:
            amount, unit = say_figure(total, 0), say(WORDS[renewal.unit])
            ran = say("at most what the engine has run: {amount} {unit}", amount=amount, unit=unit)
            yield Fault(f"{field}.at", f"{renewal.at:,f}", ran)


def _readings(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    for number, reading in enumerate(request.readings):
        span = reading.limit - reading.standard
        wrong = span <= 0 if reading.bad_when == "above" else span >= 0
        if wrong:
            allowed = say(
                "a limit below the standard of {standard}, as it is bad when below", standard=reading.standard
            )
            if reading.bad_when == "above":
                allowed = say(
                    "a limit above the standard of {standard}, as it is bad when above",
                    standard=reading.standard,
                )
            yield Fault(f"readings.{number}.limit", str(reading.limit), allowed)


def _units(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    both = set(request.include) & set(request.leave)
    for code in sorted(both):
        yield Fault("leave", code, say("not also in include"))


_NAMES: tuple[Check, ...] = (_engine, _planned, _components, _seen)
_SENSE: tuple[Check, ...] = (_history, _renewals, _service, _readings, _units, dyno_faults)
