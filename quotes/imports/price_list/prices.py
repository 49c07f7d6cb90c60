"""A price in one cell of a price list: its marks, its signs and its currency, or why it is none."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from decimal import Decimal
from functools import lru_cache
from typing import Literal, NamedTuple

from babel.numbers import get_currency_symbol, list_currencies

from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.reading import DecimalMark
from catalogue.calc.price_list.standing import PLACES
from catalogue.calc.said import say, say_figure
from quotes.imports.cell_values import BadCell
from quotes.imports.price_list.limits import Figure, MadeDate, Raw

MOST = Decimal(10_000_000)
"""No part of an engine costs as much: it is a column taken for another."""
MOST_DIGITS = 20
BARE = {".": re.compile(r"\d+(?:\.\d{1,4})?", re.ASCII), ",": re.compile(r"\d+(?:,\d{1,4})?", re.ASCII)}
PARTED = {
    ".": re.compile(r"(\d{1,3}(?:([,'])\d{3})(?:\2\d{3})*|\d+)(?:\.(\d*))?|\.(\d+)", re.ASCII),
    ",": re.compile(r"(\d{1,3}(?:([.'])\d{3})(?:\2\d{3})*|\d+)(?:,(\d*))?|,(\d+)", re.ASCII),
}
"""A price by its decimal mark: whole part, the mark of its thousands, decimals."""
BLANKS = re.compile(r"(?<=\d)[\s\u00a0\u2009\u202f](?=\d)")
QUOTES = str.maketrans(dict.fromkeys("\u2019\u2018\u02bc\u00b4`", "'"))
DASHES = "-\N{MINUS SIGN}\N{EN DASH}\N{EM DASH}"
NO_DECIMALS = re.compile(rf"(?<=\d)[.,][{DASHES}]+")
"""12,- and 12.- are twelve without decimals."""
WORD = re.compile(r"[^\W\d_]+\.?")
SURE = {"\N{EURO SIGN}": "EUR", "\N{POUND SIGN}": "GBP", "FR.": "CHF", "SFR.": "CHF", "Z\u0141": "PLN",
        "K\u010c": "CZK", "FT": "HUF", "\u20b9": "INR", "\u20a9": "KRW", "\u20ba": "TRY"}  # fmt: skip
CROWNS = ("SEK", "NOK", "DKK", "ISK")


class Price(NamedTuple):
    """An amount, and the currency that stands beside it: a code, a sign of several currencies, or nothing."""

    amount: Decimal
    currency: str = ""


def price_reader(mark: DecimalMark, currency: str) -> Callable[[Raw], Decimal]:
    """Reads prices with that decimal mark, in that currency or without one; BadCell for what is none."""
    used: Literal[".", ","] = "," if mark == "," else "."
    bare = BARE[used]
    comma = used == ","

    def read(raw: Raw) -> Decimal:
        if type(raw) is Figure:
            amount = _exact(raw)
        elif type(raw) is str and bare.fullmatch(raw):
            amount = Decimal(raw.replace(",", ".")) if comma else Decimal(raw)
        else:
            amount = _in_text(raw, used, currency)
        if 0 < amount <= MOST:
            return amount
        raise _out_of_bounds(amount)

    return read


def price_in(text: str, mark: Literal[".", ","]) -> Price | None:
    """The price in a text; None where it is none by that mark.

    >>> price_in("1.234,50 €", ","), price_in("CHF 1'234.-", ".")
    (Price(amount=Decimal('1234.5'), currency='EUR'), Price(amount=Decimal('1234'), currency='CHF'))
    """
    figure, currency = _without_currency(" ".join(text.split()).translate(QUOTES))
    if currency is None:
        return None
    figure = NO_DECIMALS.sub("", figure)
    sign = 1
    if figure[:1] and figure[0] in DASHES:
        figure, sign = figure[1:].strip(), -1
    figure = BLANKS.sub("'", figure)
    found = PARTED[mark].fullmatch(figure)
    if not found:
        return None
    whole, _, places, only = found.groups()
    digits = re.sub(r"\D", "", whole or "0")
    decimals = (places or only or "").rstrip("0")
    if len(digits) > MOST_DIGITS or len(decimals) > MOST_DIGITS:
        return None
    amount = Decimal(f"{digits}.{decimals}" if decimals else digits)
    return Price(sign * (round_half_up(amount, PLACES) if len(decimals) > PLACES else amount), currency)


def guessed_mark(texts: Iterable[str], separator: str) -> tuple[Literal[".", ","], bool]:
    """The decimal mark by which most prices can be read, and whether the file shows it.

    1.234 alone shows nothing: it is read by the separator, a comma beside a semicolon or tab.
    """
    sure = {".": 0, ",": 0}
    either = 0
    for text in texts:
        by_point, by_comma = price_in(text, "."), price_in(text, ",")
        if by_point and not by_comma:
            sure["."] += 1
        elif by_comma and not by_point:
            sure[","] += 1
        elif by_point != by_comma:
            either += 1
    if sure["."] != sure[","]:
        return ("." if sure["."] > sure[","] else ","), True
    return ("," if separator == ";" else "."), not either


def sign_fits(sign: str, currency: str) -> bool:
    """Whether a code or sign beside a price can mean that currency."""
    if sign == currency:
        return True
    if sign in ("KR", "KR."):
        return currency in CROWNS
    return len(sign) == 1 and sign in get_currency_symbol(currency, locale="en")


@lru_cache
def currencies() -> frozenset[str]:
    """The three letters of every currency."""
    return frozenset(list_currencies())


def _exact(raw: Figure) -> Decimal:
    amount = Decimal(raw)
    exponent = amount.as_tuple().exponent
    if isinstance(exponent, int) and exponent >= -PLACES:
        return amount
    if not amount.is_finite() or abs(amount) > MOST:
        raise _out_of_bounds(MOST + 1)
    return round_half_up(amount, PLACES)


def _in_text(raw: Raw, mark: Literal[".", ","], currency: str) -> Decimal:
    if isinstance(raw, MadeDate):
        raise BadCell(say("was made a date by the spreadsheet"), _allowed(mark))
    if not isinstance(raw, str):
        raise BadCell(say("is an error, a time or a yes/no"), _allowed(mark))
    price = price_in(raw, mark)
    if price is None:
        raise BadCell(_why_not(raw, mark), _allowed(mark))
    if price.currency and currency and not sign_fits(price.currency, currency):
        raise BadCell(
            say("is in another currency than the list"),
            say("prices in {currency}", currency=currency),
        )
    return price.amount


def _why_not(text: str, mark: Literal[".", ","]) -> str:
    if any(not char.isprintable() for char in text.strip().replace("\N{NO-BREAK SPACE}", " ")):
        return say("holds a character that can't be seen")
    if price_in(text, "." if mark == "," else ","):
        return say("has another decimal mark than the list")
    return say("is no price")


def _allowed(mark: Literal[".", ","]) -> str:
    if mark == ",":
        return say("a price above 0, such as 1234,50")
    return say("a price above 0, such as 1234.50")


def _out_of_bounds(amount: Decimal) -> BadCell:
    reason = say("is below nought") if amount < 0 else say("is nought") if amount == 0 else say("is absurd")
    return BadCell(reason, say("above 0 and at most {most}", most=say_figure(MOST, 0)))


def _without_currency(text: str) -> tuple[str, str | None]:
    """The figure, and the code or sign beside it; None where what stands beside it is no currency."""
    signs = [char for char in text if unicodedata.category(char) == "Sc"]
    words = [word.upper() for word in WORD.findall(text)]
    if not signs and not words:
        return text, ""
    if len(words) > 1 or len(signs) > 1 or (signs and words and words[0] not in _letters_of_signs()):
        return text, None
    bare = WORD.sub("", "".join(char for char in text if char not in signs)).strip()
    found = signs[0] if signs else words[0]
    currency = SURE.get(found, found)
    known = bool(signs) or currency in currencies() or currency in ("KR", "KR.")
    return bare, currency if known else None


@lru_cache
def _letters_of_signs() -> frozenset[str]:
    """What may stand before a dollar sign: US$ 12, A$ 12."""
    return frozenset({"US", "A", "AU", "C", "CA", "NZ", "HK", "S"}) | currencies()
