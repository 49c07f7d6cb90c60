"""The picture of money against finishing in both its shapes, with the numbers that stand beside it."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.figures import Way, address_of, ways_of
from quotes.documents.picture import (
    money_against_chance,
    opened_in_words,
    picture_notes,
    scale_starts_at,
)
from quotes.documents.words import figure, percent_band, whole_percent


@dataclass(frozen=True, slots=True)
class InNumbers:
    """One row of the small table beside the picture."""

    name: str
    gross: str
    chance: str
    likely: str
    way: str
    """By which name its figures are asked for."""
    priced_by: str
    """The key that the price opens by."""


@dataclass(frozen=True, slots=True)
class MoneyFigure:
    """What the page is told; `starts_at` is where the upright scale begins."""

    wide: SafeString
    narrow: SafeString
    starts_at: int
    notes: tuple[str, ...]
    rows: tuple[InNumbers, ...]


def money_figure(comparison: Comparison, language: str = "") -> MoneyFigure:
    """Every way of building with its price and chance, drawn and in numbers."""
    return MoneyFigure(
        wide=mark_safe(money_against_chance(comparison, "wide", language)),
        narrow=mark_safe(money_against_chance(comparison, "narrow", language)),
        starts_at=scale_starts_at(comparison),
        notes=picture_notes(comparison),
        rows=_in_numbers(comparison, language),
    )


def _in_numbers(comparison: Comparison, language: str) -> tuple[InNumbers, ...]:
    return tuple(_row(way, comparison.decimals, language) for way in ways_of(comparison))


def _row(way: Way, decimals: int, language: str) -> InNumbers:
    opened = opened_in_words(way) if isinstance(way, Option) else ""
    gross = way.planned_gross.typical if isinstance(way, Option) else way.gross
    return InNumbers(
        ", ".join(filter(None, (way.name, opened))),
        figure(gross, decimals, language),
        whole_percent(way.chance.value),
        percent_band(way.chance.low, way.chance.high),
        address_of(way),
        "season" if isinstance(way, Option) and way.season else "gross",
    )
