"""What the cells of a price list show of themselves, where no head names their column."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from catalogue.calc.price_list.reading import Column
from quotes.imports.price_list.limits import Figure, Line, Raw, raw_text
from quotes.imports.price_list.prices import SURE, Price, currencies, price_in

CODE = re.compile(r"(?<![^\W_])[A-Z]{3}(?![^\W_])")
MOSTLY = 0.6
"""The share of a column's filled cells that decides what it is."""


def price_lines(lines: Sequence[Line]) -> Mapping[int, bool]:
    """Which lines hold a price and some words besides, as an article's do."""
    return {
        number: any(map(looks_like_price, cells)) and sum(map(bool, cells)) > 1 for number, cells in lines
    }


def looks_like_price(raw: Raw) -> bool:
    """Whether a cell is a figure with decimals, by either mark, or a number of the spreadsheet's."""
    if isinstance(raw, Figure):
        return True
    if not isinstance(raw, str) or not any(map(str.isdigit, raw)):
        return False
    return any(mark in raw and price_in(raw, mark) is not None for mark in (".", ","))


def content_columns(rows: Sequence[Sequence[Raw]], named: Mapping[Column, int]) -> dict[Column, int]:
    """The columns with the needed ones found by what stands in them, where no head names them."""
    found = dict(named)
    width = max(map(len, rows), default=0)
    columns = [
        [row[place] for row in rows if place < len(row) and row[place] != ""] for place in range(width)
    ]
    free = [place for place in range(width) if place not in found.values() and columns[place]]
    if "cost" not in found:
        prices = [place for place in free if _share(map(looks_like_price, columns[place])) >= MOSTLY]
        prices = [place for place in prices if not _counts(columns[place])]
        if prices:
            found["cost"] = prices[0]
            free.remove(prices[0])
    if "number" not in found:
        numbers = [place for place in free if _tells_apart(columns[place])]
        if numbers:
            found["number"] = numbers[0]
    return found


def guessed_currency(heads: Iterable[str], prices: Iterable[str], codes: Iterable[str]) -> str:
    """The currency that the column of it names most, that stands beside the prices, or in a head."""
    said = Counter(code.strip().upper() for code in codes)
    said = said or Counter(price.currency for text in prices if (price := _priced(text)) and price.currency)
    for code, _ in said.most_common(1):
        return code if code in currencies() else ""
    for head in heads:
        for code in [*CODE.findall(head), *(SURE[char] for char in head if char in SURE)]:
            if code in currencies():
                return str(code)
    return ""


def _priced(text: str) -> Price | None:
    return price_in(text, ",") or price_in(text, ".")


def _share(found: Iterable[bool]) -> float:
    answers = list(found)
    return sum(answers) / len(answers) if answers else 0.0


def _counts(cells: Sequence[Raw]) -> bool:
    """Whether they are whole numbers throughout, as packs and days are."""
    return all(isinstance(raw, Figure) and raw.endswith(".0") for raw in cells)


def _tells_apart(cells: Sequence[Raw]) -> bool:
    """Whether most cells hold a figure and hardly one stands there twice."""
    texts = [raw_text(raw).strip() for raw in cells]
    figures = _share(any(map(str.isdigit, text)) and len(text.split()) < 4 for text in texts)
    return figures >= MOSTLY and len(set(texts)) >= MOSTLY * len(texts)
