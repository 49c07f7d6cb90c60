"""The records that a desk keeps: a customer, and an engine with its past."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError as Refusal
from django.utils.translation import gettext_lazy as _
from pydantic import ValidationError

from catalogue.calc.said import say
from quotes.actions.customers import CustomerDetails
from quotes.calc.ask.request import EngineAsked, Planned, Request, Value
from quotes.forms.asked import Asked
from quotes.forms.asking import ask_engine, ask_past
from quotes.forms.card_parts import EnginePart, PastPart
from quotes.forms.card_rows import RenewedRow, SegmentRow
from quotes.forms.faults import Fault, say_faults, say_invalid
from quotes.forms.fields import CardForm, choice, lines, text
from quotes.forms.offered import Offered
from quotes.forms.rows import Rows

Checker = Callable[[Request], Iterable[Fault]]


class CustomerForm(CardForm):
    """Everything kept of a customer. What the database refuses is said at its field."""

    name = text(_("Name"), maxlength="200")
    telephone = text(_("Telephone"), inputmode="tel", maxlength="40")
    email = text(_("E-mail"), inputmode="email", maxlength="254")
    address = lines(_("Address"))
    tax_registration = text(_("Tax registration"), maxlength="40")
    country = text(_("Country, two letters"), maxlength="2")
    language = choice(_("Language of papers"), [("", _("the workshop's")), *settings.LANGUAGES])

    def __init__(self, data: Mapping[str, Any]) -> None:
        super().__init__(data, label_suffix="")

    def details(self) -> CustomerDetails:
        return CustomerDetails(**{name: self.typed(name) for name in self.fields})

    def refuse(self, refusal: Refusal) -> None:
        """Put what the record refuses at its fields."""
        told = refusal.message_dict if hasattr(refusal, "error_dict") else {"name": refusal.messages}
        for name, messages in told.items():
            self.say(name if name in self.fields else "name", messages[0])


class Record(Value):
    """An engine as it stands in a request."""

    engine: EngineAsked


class EngineDetails(EnginePart):
    """The engine with what is only written down on its own page."""

    note = lines(_("Note"))


class EngineRecord:
    """The engine's part of the card, on a page of its own."""

    def __init__(self, data: Mapping[str, Any], offered: Offered, kept: EngineAsked | None = None) -> None:
        self.offered = offered
        self.engine: EnginePart = EngineDetails(data, offered)
        self.past = PastPart(data, offered)
        self.history = Rows("history", SegmentRow, data, offered)
        self.renewed = Rows("renewed", RenewedRow, data, offered)
        self.kept_engine = {"build_cycles": dict(kept.build_cycles)} if kept else {}

    @property
    def all_rows(self) -> dict[str, Rows[Any]]:
        return {rows.name: rows for rows in (self.history, self.renewed)}

    @property
    def forms(self) -> Iterator[CardForm]:
        yield from (self.engine, self.past, *self.history, *self.renewed)

    @property
    def type_name(self) -> str:
        code = self.engine.typed("type")
        return dict(self.offered.engine_types).get(code, code)

    def name_of(self, component: str) -> str:
        return dict(self.offered.components).get(component, component)

    def asked(self, on: date, check: Checker) -> EngineAsked | None:
        """The engine as the sums know it, or None with every fault at its field."""
        asked = Asked()
        ask_engine(self, asked)
        ask_past(self, asked)
        self._insist()
        try:
            record = Record.model_validate(asked.values)
        except ValidationError as invalid:
            say_invalid(asked, invalid)
            return None
        duties = [code for code, _ in self.offered.duties]
        if duties:
            trial = Request(on=on, engine=record.engine, planned=Planned(duty=duties[0]))
            found = [fault for fault in check(trial) if fault.field.startswith("engine")]
            say_faults(asked, found)
        return None if any(form.errors for form in self.forms) else record.engine

    def _insist(self) -> None:
        if not self.engine.typed("type"):
            self.engine.say("type", say("Nothing is given. Which engine type: choose one of the list."))
        for rows in self.all_rows.values():
            for row in rows.filled:
                for name in (name for name in row.needed if not row.typed(name)):
                    row.say(name, say("Nothing is given. {label}", label=row[name].label))
