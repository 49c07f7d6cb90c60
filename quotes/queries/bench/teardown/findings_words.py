"""Words of the findings report: what was read beside what was seen, and how far a part is good."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from catalogue.calc.said import say, say_count
from quotes.calc.ask.request import Reading
from quotes.calc.bench.said import exact, unit_in_words
from quotes.calc.bench.teardown.findings_sheet import ReadingShown
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.bench.teardown.verdicts import Bounds, verdict_in_words
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.words import first_large
from quotes.models import FindingSeen

MOST_READINGS = 6
"""Of one finding; all of them stand in the table."""


def readings_told(rows: Sequence[ReadingShown]) -> tuple[str, ...]:
    """What is past or near its limit in full, and how much is within."""
    full = [row for row in rows if row.verdict in ("past", "watch")][:MOST_READINGS]
    within = sum(row.verdict == "within" for row in rows)
    if not full and within == 1:
        full, within = list(rows[:1]), 0
    said = tuple(_read_in_words(row) for row in full)
    if not within:
        return said
    return (*said, say_count("{count} reading within limits", "{count} readings within limits", within))


def _read_in_words(row: ReadingShown) -> str:
    name = say("{name} at {place}", name=row.name, place=row.place) if row.place else row.name
    if not row.limit:
        return f"{name}: {row.read}, {row.verdict_in_words}"
    return say(
        "{name}: {read}, limit {limit} ({source}), {verdict}",
        name=name,
        read=row.read,
        limit=row.limit,
        source=row.source,
        verdict=row.verdict_in_words,
    )


def until_in_words(row: FindingSeen) -> str:
    if row.until_amount is None:
        return ""
    words = {str(code): word for code, word in WORDS.items()}
    return say(
        "for another {amount} {unit}", amount=bare_figure(row.until_amount), unit=say(words[row.until_unit])
    )


def span_in_words(low: Decimal | None, high: Decimal | None, unit: str) -> str:
    ends = [bare_figure(end) for end in (low, high) if end is not None]
    span = dict.fromkeys(ends)
    said = say("{low} to {high}", low=ends[0], high=ends[1]) if len(span) > 1 else "".join(span)
    return with_unit(said, unit) if ends else ""


def with_unit(figure: str, unit: str) -> str:
    """A share of the new size has no unit: its name says what it is a share of."""
    return figure if unit == "ratio" else f"{figure} {unit_in_words(unit)}"


def bare_figure(value: Decimal | None) -> str:
    return "" if value is None else exact(value.normalize())


def reading_in_words(reading: Reading) -> str:
    """What a reading on the card comes to: a slip of unit or point is seen while the customer talks."""
    low, high = (None, reading.standard) if reading.bad_when == "above" else (reading.standard, None)
    bounds = Bounds(reading.limit, reading.bad_when, low, high)
    where = [first_large(reading.quantity), *([place_in_words(reading.place)] if reading.place else [])]
    return say(
        "{what}, {read}: {verdict}",
        what=", ".join(where),
        read=with_unit(bare_figure(reading.value), reading.unit),
        verdict=verdict_in_words(reading.value, bounds),
    )
