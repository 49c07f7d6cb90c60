"""Days and sums as banks write them: which mark parts the decimals, which figure is the day."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from contextlib import suppress
from datetime import date
from decimal import Decimal
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from babel.numbers import list_currencies

from quotes.calc.books.bank_lines import DateOrder, DecimalMark

MOST = Decimal(10_000_000)
"""No payment to a workshop reaches ten million: more is a column taken for another."""
MARKS: tuple[Literal[".", ","], ...] = (".", ",")
MINUS = "\N{MINUS SIGN}\N{EN DASH}\N{HYPHEN}\N{NON-BREAKING HYPHEN}"
SIGNS = {"+": 1, "-": -1}
BLANKS = re.compile(r"[\s\u00a0\u202f\u2009]+")
CAME_IN, WENT_OUT = {"CR", "C", "H"}, {"DR", "D", "S"}
SIGNED = re.compile(r"(?P<figure>.*?\d[\d.,']*)(?P<word>CR|DR|C|D|H|S)")
PARTED = {
    ".": re.compile(r"(\d{1,3}(?:[,']\d{3})+|\d+)(?:\.(\d*))?|\.(\d+)", re.ASCII),
    ",": re.compile(r"(\d{1,3}(?:[.']\d{3})+|\d+)(?:,(\d*))?|,(\d+)", re.ASCII),
}
"""A figure by its decimal mark: whole part, with its thousands parted or not, and decimals."""
FIGURES = re.compile(r"(\d{1,4})[-./ ](\d{1,2})[-./ ](\d{4}|\d{2})(?:[T ,].*)?", re.ASCII)
JOINED = re.compile(r"(\d{8})(?:[T ]?\d{4,6})?", re.ASCII)
NAMED = re.compile(r"(\d{1,2})[-./ ]*([A-Za-z]{3})[A-Za-z]*[-./, ]*(\d{4}|\d{2})(?:[T ,].*)?", re.ASCII)
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
ORDERS: tuple[Literal["ymd", "dmy", "mdy"], ...] = ("ymd", "dmy", "mdy")
CENTURY = 2000


def sum_of(text: str, mark: DecimalMark, decimals: int) -> Decimal | None:
    """The sum in a cell, below nought for what went out; None where it is none.

    >>> sum_of("-1.234,50 EUR", ",", 2), sum_of("12.50 DR", ".", 2), sum_of("1.234", ".", 2)
    (Decimal('-1234.50'), Decimal('-12.50'), None)
    """
    figure, sign = _bare(text)
    found = PARTED[mark or "."].fullmatch(figure)
    if not found or not figure:
        return None
    whole, places, only = found.groups()
    places = places or only or ""
    if len(places.rstrip("0")) > decimals and len(places) > decimals:
        return None
    digits = re.sub(r"\D", "", whole or "0")
    if len(digits) > len(str(MOST)) or not (whole or places):
        return None
    amount = Decimal(f"{digits}.{places or '0'}" if places else digits)
    return sign * amount if amount <= MOST else None


def day_of(text: str, order: DateOrder) -> date | None:
    """The day in a cell, a time of day after it left out; None where it is none."""
    plain = BLANKS.sub(" ", text).strip()
    if found := FIGURES.fullmatch(plain):
        first, second, third = found.groups()
        if order == "ymd":
            return _day(first, second, third) if len(first) == 4 else None
        if len(first) > 2:
            return None
        return _day(third, second, first) if order == "dmy" else _day(third, first, second)
    if found := JOINED.fullmatch(plain):
        run = found[1]
        parts = {
            "ymd": (run[:4], run[4:6], run[6:]),
            "dmy": (run[4:], run[2:4], run[:2]),
            "mdy": (run[4:], run[:2], run[2:4]),
        }
        return _day(*parts[order]) if order else None
    if (found := NAMED.fullmatch(plain)) and found[2].lower() in MONTHS:
        return _day(found[3], str(MONTHS.index(found[2].lower()) + 1), found[1])
    return None


def guessed_mark(cells: Iterable[str], separator: str, decimals: int) -> Literal[".", ","]:
    """The decimal mark by which most cells are sums."""
    filled = [cell for cell in cells if cell.strip()]
    comma = sum(sum_of(cell, ",", decimals) is not None for cell in filled)
    point = sum(sum_of(cell, ".", decimals) is not None for cell in filled)
    if comma == point:
        return "," if separator == ";" else "."
    return "," if comma > point else "."


def guessed_order(
    cells: Iterable[str], on: date, usual: DateOrder
) -> tuple[Literal["ymd", "dmy", "mdy"], bool]:
    """The order by which most cells are days up to `on` and follow each other, and whether it is sure.

    `usual` decides where 3/4 could be either; then it is not sure.
    """
    filled = [cell for cell in cells if cell.strip()]
    found = {order: [day_of(cell, order) for cell in filled] for order in ORDERS}

    def weight(order: Literal["ymd", "dmy", "mdy"]) -> tuple[int, int, int]:
        days = [day for day in found[order] if day]
        past = sum(day <= on for day in days)
        runs = sum(before <= after for before, after in pairwise(days))
        return len(days), past, max(runs, len(days) - 1 - runs)

    best = max(ORDERS, key=lambda order: (weight(order), order == usual))
    rivals = [order for order in ORDERS if order != best and weight(order)[0] == weight(best)[0]]
    sure = not filled or all(found[order] == found[best] for order in rivals)
    return best, sure


def looks_like_day(text: str) -> bool:
    """Whether it is a day in some order."""
    return any(day_of(text, order) for order in ORDERS)


def looks_like_sum(text: str) -> bool:
    """Whether it is a sum by some mark."""
    return any(sum_of(text, mark, 3) is not None for mark in MARKS)


def _bare(text: str) -> tuple[str, int]:
    """The figure without currency and sign, and which way the sign says that money went."""
    plain = BLANKS.sub("", text).upper()
    plain = "".join("-" if char in MINUS else char for char in plain if unicodedata.category(char) != "Sc")
    if plain[:3] in _currencies():
        plain = plain[3:]
    elif plain[-3:] in _currencies():
        plain = plain[:-3]
    sign = 1
    if found := SIGNED.fullmatch(plain):
        plain, sign = found["figure"], -1 if found["word"] in WENT_OUT else 1
    if plain.startswith("(") and plain.endswith(")"):
        return plain[1:-1], -sign
    if plain[:1] in SIGNS:
        return plain[1:], sign * SIGNS[plain[0]]
    if plain[-1:] in SIGNS:
        return plain[:-1], sign * SIGNS[plain[-1]]
    return plain, sign


@lru_cache
def _currencies() -> frozenset[str]:
    """The three letters of every currency."""
    return frozenset(list_currencies())


def _day(year: str, month: str, day: str) -> date | None:
    number = int(year) + (CENTURY if len(year) == 2 else 0)
    with suppress(ValueError):
        return date(number, int(month), int(day))
    return None
