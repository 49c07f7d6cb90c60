"""How many: the pieces of a pack, what a price is for, the days until it is here."""

from __future__ import annotations

import re

from catalogue.calc.price_list.units import unit_in
from catalogue.calc.said import say, say_figure
from quotes.imports.cell_values import BadCell
from quotes.imports.price_list.limits import Raw, raw_text
from quotes.imports.price_list.texts import NOTHING, plain

MOST = 30_000
MOST_DAYS = 400
DAYS_OF_WEEK = 5
"""Working days, as the workshop counts."""
DAYS_OF_MONTH = 21
COUNT = re.compile(r"\D*(\d{1,6})(?:[.,]0+)?\D*", re.ASCII)
TIME = re.compile(
    r"\D*?(?:\d{1,3}(?:[.,]\d)?\s*(?:-|\u2013|to|bis|a)\s*)?(\d{1,3})(?:[.,]\d)?\s*([^\W\d]*)\.?", re.ASCII
)
WEEKS = ("w", "wk", "wks", "week", "weeks", "woche", "wochen", "wo", "kw")
MONTHS = ("month", "months", "mth", "monat", "monate", "mois")


def count_of(raw: Raw) -> int:
    """A whole number, whatever word stands beside it; BadCell where there is none."""
    if found := COUNT.fullmatch(text := plain(raw_text(raw))):
        count = int(found[1])
    else:
        count = unit_in(text).priced_for if unit_in(text).priced_for > 1 else 0
    if not 1 <= count <= MOST:
        raise BadCell(
            say("is no number of pieces"), say("a whole number from 1 to {most}", most=say_figure(MOST, 0))
        )
    return count


def days_of(raw: Raw) -> int | None:
    """Working days until it is here, the longer of two; None where the cell says nothing to be counted."""
    text = plain(raw_text(raw)).casefold()
    if text in NOTHING or not (found := TIME.fullmatch(text)):
        return None
    days = int(found[1])
    if found[2] in WEEKS:
        days *= DAYS_OF_WEEK
    elif found[2] in MONTHS:
        days *= DAYS_OF_MONTH
    return days if days <= MOST_DAYS else None
