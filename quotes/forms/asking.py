"""Turns the parts of the card into what the request is made from."""

from __future__ import annotations

from typing import Any, Protocol

from catalogue.calc.said import say
from quotes.forms.asked import Asked, filled
from quotes.forms.card_parts import AimPart, EnginePart, PastPart, PlannedPart
from quotes.forms.card_rows import ReadingRow, RenewedRow, SeenRow, SegmentRow
from quotes.forms.fields import CardForm
from quotes.forms.offered import Offered
from quotes.forms.rows import Rows


class AboutEngine(Protocol):
    """A card that says what an engine is and what it has done."""

    engine: EnginePart
    past: PastPart
    history: Rows[SegmentRow]
    renewed: Rows[RenewedRow]
    kept_engine: dict[str, Any]

    def name_of(self, component: str) -> str: ...


class AboutQuote(AboutEngine, Protocol):
    """The whole card: also what was seen, what is planned, and what is aimed at."""

    offered: Offered
    seen: Rows[SeenRow]
    readings: Rows[ReadingRow]
    planned: PlannedPart
    aim: AimPart
    kept: dict[str, Any]


SEGMENT = {"amount": "amount", "unit": "unit", "duty": "duty", "tier": "tier", "start": "start", "end": "end"}
RENEWAL = {"at": "at", "unit": "unit", "on": "on"}
OBSERVED = {"id": "id", "component": "component", "place": "place", "pct_over": "pct_over", "at": "at"}
READING_NAMES = (
    "component", "quantity", "place", "value", "unit", "standard", "limit", "bad_when", "limit_source",
)  # fmt: skip
READING = {name: name for name in READING_NAMES}
PLANNED_NAMES = ("duty", "events", "amount", "unit", "first_meeting")
FIGURES = frozenset({"amount", "at", "pct_over", "value", "standard", "limit", "events"})


def ask(card: AboutQuote) -> Asked:
    """All parts of the card under the request's paths."""
    asked = Asked(values=dict(card.kept))
    ask_engine(card, asked)
    ask_past(card, asked)
    _ask_seen(card, asked)
    _ask_rows(asked, ("readings",), card.readings.filled, READING)
    _ask_planned(card, asked)
    _ask_aim(card, asked)
    return asked


def ask_engine(card: AboutEngine, asked: Asked) -> None:
    """Which engine it is."""
    names = {"type": "type", "delivered": "delivered", "fitted": "fitted"}
    asked.values["engine"] = dict(card.kept_engine) | filled(card.engine, names)
    _mark(asked, ("engine",), card.engine, names)
    asked.mark(("engine",), card.engine, "type")


def ask_past(card: AboutEngine, asked: Asked) -> None:
    """What it has done, and what was renewed on the way; `ask_engine` comes first."""
    past = card.past.typed("past")
    asked.mark(("engine", "history"), card.past, "past")
    engine = asked.values["engine"]
    if past == PastPart.UNKNOWN:
        engine["history"] = None
    elif past == PastPart.NEW:
        engine["history"] = []
    else:
        rows = _ask_rows(asked, ("engine", "history"), card.history.filled, SEGMENT)
        engine["history"] = rows or None  # nothing written yet is not known yet, never new
    engine["renewed"] = {}
    for row in card.renewed.filled:
        code = row.typed("component")
        if code in engine["renewed"]:
            row.say(
                "component",
                say(
                    "{component} stands here twice: give its latest renewal only.",
                    component=card.name_of(code),
                ),
            )
        engine["renewed"][code] = filled(row, RENEWAL, FIGURES)
        path = ("engine", "renewed", code)
        _mark(asked, path, row, RENEWAL)
        asked.mark(path, row, "component")


def _ask_seen(card: AboutQuote, asked: Asked) -> None:
    """Findings and events stand in one list on the card and in two in the request."""
    events = {code for code, _ in card.offered.events}
    for kind, wanted in (("findings", False), ("events", True)):
        rows = [row for row in card.seen.filled if (row.typed("id") in events) is wanted]
        _ask_rows(asked, (kind,), rows, OBSERVED)


def _ask_planned(card: AboutQuote, asked: Asked) -> None:
    names = {name: name for name in PLANNED_NAMES}
    asked.values["planned"] = filled(card.planned, names, FIGURES)
    if "amount" not in asked.values["planned"]:
        asked.values["planned"].pop("unit", None)  # a unit alone says nothing: the duty's own season is meant
    _mark(asked, ("planned",), card.planned, names)
    asked.mark(("planned",), card.planned, "duty")
    asked.values |= filled(card.planned, {"checks": "checks"})
    asked.mark(("checks",), card.planned, "checks")


def _ask_aim(card: AboutQuote, asked: Asked) -> None:
    names = {"budget": "budget", "loss": "loss", "class_code": "class_code"}
    asked.values |= filled(card.aim, names, frozenset({"budget", "loss"}))
    _mark(asked, (), card.aim, names)
    asked.mark(("target",), card.aim, "aim")
    if card.aim.typed("aim"):
        asked.values["target"] = card.aim.target
    for name in ("refresh_list", "stripped"):
        asked.values[name] = bool(card.aim.typed(name))
        asked.mark((name,), card.aim, name)


def _ask_rows(
    asked: Asked, path: tuple[str, ...], rows: list[Any], names: dict[str, str]
) -> list[dict[str, str]]:
    told = [filled(row, names, FIGURES) for row in rows]
    for index, row in enumerate(rows):
        _mark(asked, (*path, str(index)), row, names)
        asked.mark((*path, str(index)), row, row.content[0])
    if len(path) == 1:
        asked.values[path[0]] = told
    return told


def _mark(asked: Asked, path: tuple[str, ...], form: CardForm, names: dict[str, str]) -> None:
    for name, field_name in names.items():
        asked.mark((*path, name), form, field_name)
