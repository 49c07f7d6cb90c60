"""Parts that carry their own age from engine to engine: where each has been, and how it may be moved.

A stay is told by its engine's own service at both ends, so an age is a sum of differences and never a guess.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.ask.request import Segment, Unit
from quotes.calc.bench.stated import in_unit
from quotes.calc.life.units import WORDS
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
