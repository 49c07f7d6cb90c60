"""The new-quote card: its parts, what was typed into them, and the request that they make together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from pydantic import ValidationError

from catalogue.calc.said import say
from quotes.calc.ask.request import EngineAsked, Request
from quotes.calc.sheet.tune_words import measured_in_words
from quotes.calc.sheet.wording import carried_in_words
from quotes.forms.asked import Asked
from quotes.forms.asking import ask
from quotes.forms.card_parts import AimPart, EnginePart, OfferedForm, PastPart, PlannedPart
from quotes.forms.card_rows import ReadingRow, RenewedRow, SeenRow, SegmentRow
from quotes.forms.faults import Fault, say_faults, say_invalid
from quotes.forms.fields import CardField, CardForm
from quotes.forms.offered import Offered
from quotes.forms.rows import Rows
from quotes.forms.who import WhoPart

KEPT = ("edits", "refusals", "include", "leave", "tiers")
"""What the worksheet has written into the request; the card carries it on untouched."""


@dataclass(slots=True)
class Answer:
    """What reading the card gave: a request, or what stands in its way."""

    asked: Asked
    request: Request | None = None
    missing: list[str] = field(default_factory=list)
    """What has not been asked yet: no fault while the caller still talks."""
    homeless: list[str] = field(default_factory=list)
    """Faults that belong to no field of the card."""

    def refuse(self, faults: Iterable[Fault]) -> None:
        """Put what the sums find wrong at its fields: there is no request then."""
        self.homeless += say_faults(self.asked, faults)
        self.request = None


class Card:
    """All parts of the card, bound to what was typed."""

    def __init__(
        self,
        data: Mapping[str, Any],
        offered: Offered,
        base: Request | None = None,
        known: EngineAsked | None = None,
    ) -> None:
        """`base`: the request that stands; `known`: the engine as it is in the books today."""
        self.offered = offered
        self.who = WhoPart(data)
        self.engine = EnginePart(data, offered)
        self.past = PastPart(data, offered)
        self.history = Rows("history", SegmentRow, data, offered)
        self.renewed = Rows("renewed", RenewedRow, data, offered)
        self.seen = Rows("seen", SeenRow, data, offered)
        self.readings = Rows("readings", ReadingRow, data, offered)
        self.planned = PlannedPart(data, offered, "planned")
        self.aim = AimPart(data, offered)
        self.carried = known.carried if known else {}
        self.measured_power = known.measured_power if known else None
        self._keep(base, known)

    def _keep(self, base: Request | None, known: EngineAsked | None) -> None:
        """Carry over what only the worksheet writes, and what the engine's own books say."""
        told = base.model_dump(mode="json", by_alias=True) if base else {}
        self.kept = {name: told[name] for name in KEPT if name in told}
        engine = base.engine if base else known
        self.kept_engine: dict[str, Any] = {"build_cycles": dict(engine.build_cycles)} if engine else {}
        if self.carried:
            self.kept_engine["carried"] = dict(self.carried)
        if self.measured_power:
            self.kept_engine["measured_power"] = self.measured_power

    @property
    def all_rows(self) -> dict[str, Rows[Any]]:
        return {rows.name: rows for rows in (self.history, self.renewed, self.seen, self.readings)}

    @property
    def forms(self) -> Iterator[CardForm]:
        """Every part and row, in the order of the card."""
        yield from (self.who, self.engine, self.past)
        yield from (row for rows in self.all_rows.values() for row in rows)
        yield from (self.planned, self.aim)

    @property
    def cells(self) -> Iterator[CardField]:
        """Every field of every part, for the places of their faults."""
        for form in self.forms:
            for name in form.fields:
                cell = form[name]
                assert isinstance(cell, CardField)
                yield cell

    @property
    def has_faults(self) -> bool:
        return any(form.errors for form in self.forms)

    @property
    def has_faults_of_engine(self) -> bool:
        """Faults in what the sums are made from; a mistyped address stops no price on the telephone."""
        return any(form.errors for form in self.forms if form is not self.who)

    @property
    def type_name(self) -> str:
        """The engine type as it is called, or its code where it is not known."""
        code = self.engine.typed("type")
        return dict(self.offered.engine_types).get(code, code)

    def name_of(self, component: str) -> str:
        return dict(self.offered.components).get(component, component)

    @property
    def carried_in_words(self) -> list[str]:
        """The parts in the engine that have ages of their own; nothing of them is typed here."""
        return [carried_in_words(self.name_of(code), part) for code, part in self.carried.items()]

    @property
    def measured_in_words(self) -> str:
        """What a dyno read on the engine in its present tune; nothing of it is typed here."""
        return measured_in_words(self.measured_power) if self.measured_power else ""

    def answer(self, on: date) -> Answer:
        """The request that the card asks for on a day, with every fault of its own rules at its field."""
        asked = ask(self)
        asked.values["on"] = on
        self._check_aim()
        try:
            request = Request.model_validate(asked.values)
        except ValidationError as invalid:
            missing, homeless = say_invalid(asked, invalid)
            return Answer(asked, None, missing, homeless)
        return Answer(asked, None if self.has_faults_of_engine else request)

    def _check_aim(self) -> None:
        if self.aim.typed("aim") and self.aim.typed("budget"):
            self.aim.say(
                "budget",
                say(
                    "An aim of “{typed}” is given as well: give one of the two.", typed=self.aim.typed("aim")
                ),
            )

    def insist(self, *, new: bool) -> None:
        """Turn what is still to be asked into faults, because the card is to be kept now."""
        if new:
            self.who.insist()
        for form, name, missing in self._needed():
            if missing:
                label = str(form[name].label).rstrip("?")
                form.say(name, say("Nothing is given. {label}: needed to keep it as a quote.", label=label))

    def _needed(self) -> Iterator[tuple[OfferedForm, str, bool]]:
        yield self.engine, "type", not self.engine.typed("type")
        yield self.planned, "duty", not self.planned.typed("duty")
        nothing = self.past.typed("past") == PastPart.KNOWN and not self.history.filled
        yield self.past, "past", nothing
        for rows in self.all_rows.values():
            for row in rows.filled:
                yield from ((row, name, not row.typed(name)) for name in row.needed)
