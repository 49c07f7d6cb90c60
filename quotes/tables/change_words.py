"""Entries of the record of changes in words: before and after with units, currency, names for keys."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from typing import Any

from django.db import models
from django.utils import timezone

from catalogue.calc.numbers import figure
from catalogue.calc.said import say, to_say
from quotes.calc.record.chain import Told
from quotes.calc.record.field_words import field_label, field_unit, holds_money
from quotes.documents.words import day, money
from quotes.models import AuditEntry, Workshop
from quotes.models.audited import NOT_SHOWN
from quotes.queries.record.history import Names, Saying, field_of, names_behind, saying

NOTHING = to_say("nothing")
ERASED = to_say("erased")


@dataclass(frozen=True, slots=True)
class FieldChange:
    """One field in words; where nothing stood before or stands after, the word for that."""

    path: str
    label: str
    was: str
    became: str


class ChangeWords:
    """Puts entries into words, all of a page together."""

    def __init__(self, entries: Sequence[AuditEntry]) -> None:
        self.sayings: dict[int, Saying] = {entry.number: saying(entry) for entry in entries}
        self.names: Names = names_behind((entry, self.sayings[entry.number]) for entry in entries)
        self.currency = Workshop.objects.get_or_default().currency

    def said(self, entry: AuditEntry) -> Saying:
        return self.sayings[entry.number]

    def fields(self, entry: AuditEntry) -> list[FieldChange]:
        """Each field that the entry tells of."""
        return [
            FieldChange(path, field_label(entry.record_type, path), *self._pair(entry, path, told))
            for path, told in self.said(entry).fields.items()
        ]

    def _pair(self, entry: AuditEntry, path: str, told: Told) -> tuple[str, str]:
        if isinstance(told, str):
            return say(ERASED), say(ERASED)
        return self.value(entry, path, told[0]), self.value(entry, path, told[1])

    def value(self, entry: AuditEntry, path: str, value: Any) -> str:
        """One value in words."""
        field = field_of(entry.record_type, path)
        if value is None or value == "" or value == []:
            return say(NOTHING)
        if value == NOT_SHOWN:
            return say(NOT_SHOWN)
        if isinstance(value, bool):
            return say("yes") if value else say("no")
        if isinstance(value, dict | list):
            return _listed(entry.record_type, value)
        if field is not None and field.is_relation:
            label = field.related_model._meta.label_lower  # type: ignore[union-attr]
            return self.names.get((label, str(value)), say("no. {number}", number=value))
        if field is not None and field.flatchoices:
            return str(dict(field.flatchoices).get(value, value))
        if holds_money(entry.record_type, path) and (amount := _number(value)) is not None:
            return money(amount, self.currency, max(2, -int(amount.as_tuple().exponent)))
        return _plain(field, value, field_unit(path))


def _plain(field: models.Field[Any, Any] | None, value: Any, unit: str) -> str:
    if isinstance(field, models.DateTimeField):
        return moment(datetime.fromisoformat(value))
    if isinstance(field, models.DateField):
        return day(date.fromisoformat(value))
    number = _number(value) if isinstance(field, models.DecimalField) or not isinstance(value, str) else None
    words = str(value) if number is None else figure(number)
    return f"{words}\N{NO-BREAK SPACE}{unit}" if unit else words


def moment(at: datetime) -> str:
    """Day and time where the workshop is."""
    local = timezone.localtime(at)
    return f"{day(local.date())}, {local:%H:%M}"


def _number(value: Any) -> Decimal | None:
    try:
        number = Decimal(str(value))
    except InvalidOperation:
        return None
    return number if number.is_finite() else None


def _listed(record_type: str, value: dict[str, Any] | list[Any]) -> str:
    if isinstance(value, dict):
        inside = ((field_label(record_type, str(key)), one) for key, one in value.items())
        return "; ".join(f"{name}: {_inner(record_type, one)}" for name, one in inside)
    return "; ".join(_inner(record_type, one) for one in value)


def _inner(record_type: str, value: Any) -> str:
    if isinstance(value, dict | list):
        return f"({_listed(record_type, value)})" if value else say(NOTHING)
    return say(NOTHING) if value is None else str(value)
