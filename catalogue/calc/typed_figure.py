"""Figures as somebody typed them, by the decimal mark of his language; never read in the wrong way."""

from __future__ import annotations

import re

from catalogue.calc.said import say, say_figure

COMMA = ","
ENTERED = re.compile(r"-?\d+\.\d+")
NOT_READ = "two ways"
"""In the place of what can be read in two ways; nobody takes it for a number."""
_BY_COMMAS = re.compile(r"-?[1-9]\d{0,2}(?:[, ']\d{3})+(?:\.\d+)?")
_BY_POINTS = re.compile(r"-?[1-9]\d{0,2}(?:[. ']\d{3})+(?:,\d+)?")
_WITH_COMMA = re.compile(r"-?\d+,\d+")
_THOUSANDS_OR_DECIMALS = re.compile(r"-?[1-9]\d{0,2}\.\d{3}")


def decimal_mark() -> str:
    """The mark that the reader's language writes before decimals."""
    return say_figure(0.5, 1)[1]


def as_entered(words: str) -> str:
    """A figure as it was entered, with the mark of the reader's language; other words as they stand.

    >>> as_entered("0.055"), as_entered("blue, cylinder 2")
    ('0.055', 'blue, cylinder 2')
    """
    return words.replace(".", decimal_mark()) if ENTERED.fullmatch(words) else words


def typed_number(typed: str, digits: int = 9) -> int | None:
    """A key, version or count as an address or a hidden field holds it; None where it can't be one.

    So many digits at most, since a database refuses to be asked for a number that it has no room for.

    >>> typed_number("17"), typed_number("-1"), typed_number("1234567890"), typed_number("")
    (17, None, None, None)
    """
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) <= digits else None


def typed_figure(typed: str, mark: str) -> str:
    """`typed` with a point before its decimals and no marks of thousands; what is no figure as it was typed.

    >>> typed_figure("4,100", "."), typed_figure("38.5", ".")
    ('4100', '38.5')
    >>> typed_figure("4.100,50", ","), typed_figure("38,5", ","), typed_figure("38.5", ",")
    ('4100.50', '38.5', '38.5')
    >>> typed_figure("1.234", ",")
    'two ways'
    """
    bare = _bare(typed)
    if mark != COMMA:
        return re.sub("[, ']", "", bare) if _BY_COMMAS.fullmatch(bare) else bare
    if _THOUSANDS_OR_DECIMALS.fullmatch(bare):
        return NOT_READ
    if _WITH_COMMA.fullmatch(bare):
        return bare.replace(",", ".")
    if re.fullmatch(r"-?0\.\d{3}", bare):
        return bare
    if _BY_POINTS.fullmatch(bare):
        return re.sub("[. ']", "", bare).replace(",", ".")
    return re.sub("[, ']", "", bare) if _BY_COMMAS.fullmatch(bare) else bare


def two_ways(typed: str, mark: str) -> str:
    """The sentence about a figure that can be read in two ways; nothing where it can't."""
    if typed_figure(typed, mark) != NOT_READ:
        return ""
    whole, part = _bare(typed).replace(".", ""), _bare(typed).replace(".", ",")
    return say(
        "“{typed}” can be read in two ways: write {whole} or {part}.", typed=typed, whole=whole, part=part
    )


def _bare(typed: str) -> str:
    return typed.replace("\N{NO-BREAK SPACE}", " ").replace("\N{MINUS SIGN}", "-").strip()
