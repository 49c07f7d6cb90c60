"""Parts that carry their own age from engine to engine: where each has been, and what it ran there.

A stay is told by its engine's own service at both ends, so an age is a sum of differences and never a guess.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.ask.request import Segment, Unit
from quotes.calc.bench.stated import in_unit
from quotes.calc.life.units import WORDS, CannotConvert, per_basis
from quotes.calc.sheet.unit_words import plain_figure


class CannotMove(ValueError):
    """A part that can't be put where it is wanted; the text says why and what to do."""


@dataclass(frozen=True, slots=True)
class InEngine:
    """An engine as a part meets it: which one, of which type, and how far it has run at that moment."""

    key: int
    name: str
    type_code: str
    service: Decimal
    unit: Unit


@dataclass(frozen=True, slots=True)
class Stay:
    """A stretch in one engine, by that engine's own service; `end` None: still in it.

    `now` is the engine's service today, where the part is still in it, and `history` what the engine has run.
    Service beyond that history counts as `duty` in the tune `tier`.
    """

    engine: int
    name: str
    unit: Unit
    start: Decimal
    from_on: date
    end: Decimal | None = None
    until_on: date | None = None
    now: Decimal | None = None
    history: tuple[Segment, ...] = ()
    duty: str = ""
    tier: str = "refresh"
    counts_for: Decimal | None = None
    """Where the part was reconditioned after it: the share of all it had run by then that counts on."""

    @property
    def upto(self) -> Decimal | None:
        """The engine's service to which the part has run in it; never less than where it began."""
        last = self.now if self.end is None else self.end
        return None if last is None else max(last, self.start)

    @property
    def ran(self) -> Decimal | None:
        """What the part has run in it; None where the engine's own service is not known."""
        return None if self.upto is None else self.upto - self.start


@dataclass(frozen=True, slots=True)
class PartLife:
    """A part with all its stays, the oldest first. `before` None: nobody knows what it ran before."""

    serial: str
    type_code: str
    before: tuple[Segment, ...] | None = ()
    stays: tuple[Stay, ...] = ()
    scrapped_on: date | None = None

    @property
    def stay(self) -> Stay | None:
        """The stay that is not over."""
        return next((stay for stay in self.stays if stay.end is None), None)

    @property
    def cycles(self) -> int:
        """How often it has been reconditioned."""
        return sum(stay.counts_for is not None for stay in self.stays)

    @property
    def last_moved(self) -> date | None:
        """The day on which it was fitted or taken out last."""
        return max((stay.until_on or stay.from_on for stay in self.stays), default=None)


def fit(life: PartLife, engine: InEngine, on: date) -> PartLife:
    """The part in this engine from that day on; CannotMove."""
    _refuse_scrapped(life)
    if (stay := life.stay) is not None:
        raise CannotMove(
            say("{serial} is in engine {name}: take it out there first.", serial=life.serial, name=stay.name)
        )
    if life.type_code != engine.type_code:
        raise CannotMove(
            say(
                "{serial} is of a {type_code}, and engine {name} is a {other}.",
                serial=life.serial,
                type_code=life.type_code,
                name=engine.name,
                other=engine.type_code,
            )
        )
    _refuse_earlier(life, on)
    for stay in life.stays:
        if stay.engine == engine.key and stay.end is not None:
            _refuse_backwards(life, stay.end, stay.unit, engine)
    stay = Stay(engine.key, engine.name, engine.unit, engine.service, on, now=engine.service)
    return replace(life, stays=(*life.stays, stay))


def take_out(life: PartLife, engine: InEngine, on: date) -> PartLife:
    """The part on the shelf from that day on; CannotMove. `engine` is the one that it is in, as it is now."""
    stay = life.stay
    if stay is None:
        raise CannotMove(say("{serial} is in no engine.", serial=life.serial))
    _refuse_earlier(life, on)
    end = in_unit(engine.service, engine.unit, stay.unit)
    if end is None:
        raise CannotMove(
            say(
                "{serial} was fitted at {start}, and {unit} can't be held against that: say the engine's "
                "service in {wanted}.",
                serial=life.serial,
                start=_said(stay.start, stay.unit),
                unit=say(WORDS[engine.unit]),
                wanted=say(WORDS[stay.unit]),
            )
        )
    _refuse_backwards(life, stay.start, stay.unit, replace(engine, service=end, unit=stay.unit))
    ended = replace(stay, end=end, until_on=on, now=None)
    return replace(life, stays=(*life.stays[:-1], ended))


def scrap(life: PartLife, on: date) -> PartLife:
    """The part gone for good; CannotMove."""
    _refuse_scrapped(life)
    if (stay := life.stay) is not None:
        raise CannotMove(
            say("{serial} is in engine {name}: take it out there first.", serial=life.serial, name=stay.name)
        )
    _refuse_earlier(life, on)
    return replace(life, scrapped_on=on)


def _refuse_scrapped(life: PartLife) -> None:
    if life.scrapped_on is not None:
        raise CannotMove(
            say(
                "{serial} was scrapped on {scrapped_on}: it goes into no engine now.",
                serial=life.serial,
                scrapped_on=life.scrapped_on,
            )
        )


def _refuse_earlier(life: PartLife, on: date) -> None:
    if life.last_moved is not None and on < life.last_moved:
        raise CannotMove(
            say(
                "{on} is before {last_moved}, when {serial} was moved last.",
                on=on,
                last_moved=life.last_moved,
                serial=life.serial,
            )
        )


def _refuse_backwards(life: PartLife, known: Decimal, unit: Unit, engine: InEngine) -> None:
    before = in_unit(known, unit, engine.unit)
    if before is not None and engine.service < before:
        raise CannotMove(
            say(
                "{service} is less than the {before} that engine {name} had run when {serial} was moved "
                "there before, and an engine does not run backwards. Look at the engine's record first.",
                service=_said(engine.service, engine.unit),
                before=_said(before, engine.unit),
                name=engine.name,
                serial=life.serial,
            )
        )


def _said(amount: Decimal, unit: Unit) -> str:
    return f"{plain_figure(amount)} {say(WORDS[unit])}"


def service_in(history: Sequence[Segment], unit: Unit, catalogue: EngineCatalogue) -> Decimal:
    """All stretches together in one unit, by their duties as the sums do it; CannotConvert."""
    return sum((segment.amount * _factor(segment, unit, catalogue) for segment in history), ZERO)


def _factor(segment: Segment, unit: Unit, catalogue: EngineCatalogue) -> Decimal:
    if segment.unit == unit:
        return Decimal(1)
    duty = catalogue.duties[segment.duty]
    return Decimal(str(per_basis(segment.unit, duty) / per_basis(unit, duty)))


def ran_in(stay: Stay, catalogue: EngineCatalogue) -> tuple[Segment, ...] | None:
    """What a part ran in one stay, by the duty and tune that its engine ran then.

    None where that can't be told: the engine's service is not known, or is in units that don't compare.
    """
    if stay.upto is None:
        return None
    try:
        cut = list(_cut(stay, stay.upto, catalogue))
        known = service_in(stay.history, stay.unit, catalogue)
    except CannotConvert:
        return None
    beyond = stay.upto - max(known, stay.start)
    if beyond > 0:
        last = stay.history[-1] if stay.history else None
        duty = last.duty if last else stay.duty
        if not duty:
            return None
        cut.append(Segment(amount=beyond, unit=stay.unit, duty=duty, tier=last.tier if last else stay.tier))
    return tuple(cut)


def _cut(stay: Stay, upto: Decimal, catalogue: EngineCatalogue) -> Iterator[Segment]:
    """The engine's stretches between the two ends of a stay, each cut to what lies inside."""
    done = ZERO
    for segment in stay.history:
        factor = _factor(segment, stay.unit, catalogue)
        begun, done = done, done + segment.amount * factor
        inside = min(done, upto) - max(begun, stay.start)
        if inside <= 0:
            continue
        whole = inside == done - begun
        amount = segment.amount if whole else inside if factor == 1 else round_half_up(inside / factor)
        yield segment.model_copy(update={"amount": amount, **_days(segment, stay)})


def _days(segment: Segment, stay: Stay) -> dict[str, date | None]:
    """The days of a stretch, as far as the part was in the engine then."""
    if segment.start is None or segment.end is None:
        return {"start": None, "end": None}
    start = max(segment.start, stay.from_on)
    end = min(segment.end, stay.until_on) if stay.until_on else segment.end
    return {"start": start, "end": end} if start <= end else {"start": None, "end": None}


def history_of(life: PartLife, catalogue: EngineCatalogue) -> tuple[Segment, ...] | None:
    """All that a part has run and that counts, wherever it was; None where any of it is not known."""
    history = life.before
    for stay in life.stays:
        ran = ran_in(stay, catalogue)
        if history is None or ran is None:
            return None
        history = (*history, *ran)
        if stay.counts_for is not None:
            history = tuple(_less(segment, stay.counts_for) for segment in history)
    return history


def _less(segment: Segment, share: Decimal) -> Segment:
    """A stretch as it counts for a part that was reconditioned since; its days say nothing any more."""
    amount = round_half_up(segment.amount * share)
    return segment.model_copy(update={"amount": amount, "start": None, "end": None})
