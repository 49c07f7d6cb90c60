"""Everything the owner sets, as one value: what the settings page shows, and what keeping it writes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.issued_values import RevisionChange
from quotes.calc.shop import LINE_KINDS, ClassRule, LineKind, MarkupBand, TaxCode, TaxRate

KIND_NAMES: Mapping[LineKind, str] = {
    "labour": to_say("labour"),
    "part": to_say("parts"),
    "machine_work": to_say("machine work"),
    "consumables": to_say("consumables"),
}


@dataclass(frozen=True, slots=True)
class Closed:
    """Days the workshop is closed, both ends included."""

    first: date
    last: date
    note: str = ""


@dataclass(frozen=True, slots=True)
class Settings:
    """`fields` are the workshop's own, by name; a line kind without a tax code is not set up yet.

    `tax_codes` are as the latest rate of each has them; `tax_rates` are all there are, by code, in order. A
    code kept with another rate has it from its day in `rates_from`. `rates_dropped` are codes whose latest
    rate is taken back before its day has come.
    """

    fields: Mapping[str, Any]
    tax_codes: tuple[TaxCode, ...]
    taxability: Mapping[LineKind, str]
    labour_rates: Mapping[str, Decimal]
    markup_bands: tuple[MarkupBand, ...]
    classes: tuple[ClassRule, ...]
    closed_days: tuple[Closed, ...]
    tax_rates: Mapping[str, tuple[TaxRate, ...]] = field(default_factory=dict)
    rates_from: Mapping[str, date] = field(default_factory=dict)
    rates_dropped: frozenset[str] = frozenset()


def settings_changes(before: Settings, after: Settings) -> tuple[RevisionChange, ...]:
    """What differs, in words, for the second of two people who changed the settings at once."""
    old, new = dict(_said(before)), dict(_said(after))
    return tuple(
        RevisionChange(what=what, before=old.get(what, say("nothing")), after=new.get(what, say("nothing")))
        for what in dict.fromkeys([*old, *new])
        if old.get(what) != new.get(what)
    )


def _said(settings: Settings) -> Iterator[tuple[str, str]]:
    for name, value in settings.fields.items():
        yield name.replace("_", " "), _plain(value)
    for code in settings.tax_codes:
        layers = ", ".join(f"{layer.name} {_plain(layer.rate_pct)} %" for layer in code.components)
        yield (
            say("tax code {code}", code=code.code),
            " ".join(filter(None, [code.category, layers, code.reason])),
        )
    for gone in sorted(settings.rates_dropped):
        yield say("latest rate of {code}", code=gone), say("taken back")
    for kind in LINE_KINDS:
        yield say("tax on {kind}", kind=say(KIND_NAMES[kind])), settings.taxability.get(kind, say("nothing"))
    for work, rate in settings.labour_rates.items():
        yield say("rate for {work}", work=work), _plain(rate)
    for band in settings.markup_bands:
        yield say("markup from {cost}", cost=_plain(band.cost_from)), f"{_plain(band.markup_pct)} %"
    for rule in settings.classes:
        yield say("class {name}", name=rule.name), ", ".join(sorted(rule.allows)) or say("allows no change")
    for days in settings.closed_days:
        to = say("to {day} {note}", day=days.last, note=days.note).strip()
        yield say("closed from {day}", day=days.first), to


def _plain(value: Any) -> str:
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    if isinstance(value, bool):
        return say("yes") if value else say("no")
    return str(value) or say("nothing")
