"""Lines gathered into customers with their engines; contradictions between lines are faults."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import cast

from catalogue.calc.said import say
from quotes.calc.ask.request import Delivered, Unit
from quotes.calc.intake.given_customers import (
    Ambiguous,
    CustomerGiven,
    EngineGiven,
    Identity,
    SegmentGiven,
    engine_key,
    identity,
    same_customer,
)
from quotes.imports.customer_columns import BY_KEY
from quotes.imports.customer_lines import Line
from quotes.imports.faults import RowFault, shown

CUSTOMER_KEYS = ("address", "telephone", "email", "tax_registration", "country")
ENGINE_KEYS = ("delivered", "fitted", "history", "note")


class Gathering:
    """The customers and engines met so far, and what contradicts them."""

    def __init__(self, sheet: str) -> None:
        self.sheet = sheet
        self.faults: list[RowFault] = []
        self.identities: list[Identity] = []
        self.lines: list[list[Line]] = []
        self.owner: dict[tuple[str, str], int] = {}

    def say(self, line: Line, key: str, reason: str, allowed: str) -> None:
        value = shown(line.text(key))
        self.faults.append(RowFault(self.sheet, line.number, BY_KEY[key].heading, value, reason, allowed))

    def customer_of(self, line: Line) -> int | None:
        """Place of the line's customer, who may be met here for the first time."""
        given = identity(line.text("name"), line.text("email"), line.text("telephone"))
        try:
            place = same_customer(self.identities, given)
        except Ambiguous:
            self.say(
                line,
                "name",
                say("may be one of two of that name in this file"),
                say("the e-mail on every line"),
            )
            return None
        if place is None:
            self.identities.append(given)
            self.lines.append([])
            place = len(self.lines) - 1
        self.lines[place].append(line)
        return place


def gather(sheet: str, lines: list[Line]) -> tuple[tuple[CustomerGiven, ...], list[RowFault]]:
    """The customers of a file, in its order, and the faults between its lines.

    Lines with an e-mail are read first, then those with a telephone, so that a line that gives only the name
    finds its customer wherever it stands.
    """
    gathering = Gathering(sheet)
    for line in sorted(lines, key=lambda one: (not one.text("email"), not one.text("telephone"))):
        place = gathering.customer_of(line)
        if place is not None and line.has("engine"):
            _claim(gathering, line, place)
    customers = [_customer(gathering, sorted(found, key=_number)) for found in gathering.lines]
    return tuple(sorted(customers, key=lambda one: one.line)), gathering.faults


def _number(line: Line) -> int:
    return line.number


def _claim(gathering: Gathering, line: Line, place: int) -> None:
    """An engine belongs to one customer."""
    key = engine_key(line.text("type_code"), line.text("number"))
    if gathering.owner.setdefault(key, place) != place:
        gathering.say(
            line, "number", say("stands under another customer too"), say("one customer for an engine")
        )


def _customer(gathering: Gathering, lines: list[Line]) -> CustomerGiven:
    told = _agreed(gathering, lines, CUSTOMER_KEYS)
    engines: dict[tuple[str, str], list[Line]] = {}
    for line in lines:
        if line.has("engine"):
            engines.setdefault(engine_key(line.text("type_code"), line.text("number")), []).append(line)
    return CustomerGiven(
        line=lines[0].number,
        name=lines[0].text("name"),
        engines=tuple(_engine(gathering, found) for found in engines.values()),
        **told,
    )


def _agreed(gathering: Gathering, lines: list[Line], keys: Iterable[str]) -> dict[str, str]:
    """The value of each key on any of the lines; two different ones are a fault."""
    told: dict[str, str] = {}
    for key in keys:
        for line in lines:
            value = line.text(key)
            if value and told.setdefault(key, value) != value:
                gathering.say(line, key, say("is not what an earlier line says"), shown(told[key]))
    return told


def _engine(gathering: Gathering, lines: list[Line]) -> EngineGiven:
    told = _agreed(gathering, lines, ENGINE_KEYS)
    segments = tuple(_segment(line) for line in lines if line.has("service"))
    _check_order(gathering, [line for line in lines if line.has("service")])
    history = told.pop("history", "known" if segments else "unknown")
    if history in ("new", "unknown") and segments:
        gathering.say(
            lines[0], "history", say("does not go with service on another line"), say("known, or blank")
        )
    given = EngineGiven(
        line=lines[0].number,
        type_code=lines[0].text("type_code"),
        number=lines[0].text("number"),
        delivered=cast(Delivered, told.get("delivered", "loose")),
        fitted=told.get("fitted", ""),
        note=told.get("note", ""),
        segments=segments,
    )
    return replace(given, history_known=history == "new" or bool(segments))


def _segment(line: Line) -> SegmentGiven:
    return SegmentGiven(
        line=line.number,
        amount=line.amount(),
        unit=cast(Unit, line.text("unit")),
        duty=line.text("duty"),
        tier=line.text("tier") or "refresh",
        start=line.day("start"),
        end=line.day("end"),
    )


def _check_order(gathering: Gathering, lines: list[Line]) -> None:
    """Stretches of service stand in the order in which they were run."""
    latest = None
    for line in lines:
        start = line.day("start") or line.day("end")
        if latest and start and start < latest:
            key = "start" if line.day("start") else "end"
            gathering.say(
                line,
                key,
                say("lies before the end of the stretch above it"),
                say("{day} or later", day=latest),
            )
        latest = max(filter(None, (latest, line.day("end") or line.day("start"))), default=None)
