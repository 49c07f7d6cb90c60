"""A text or a number of articles in one cell of a price list, or why it can't stand there."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

from catalogue.calc.said import say, say_figure, to_say
from quotes.imports.cell_values import EXACT_DIGITS, BadCell
from quotes.imports.price_list.limits import Figure, MadeDate, Raw

LONGEST_NUMBER = 100
LONGEST_NAME = 300
AS_TEXT = to_say("format the column as text and write it again")
KEPT_AS_TEXT = re.compile(r'="(.*)"', re.DOTALL)
"""How a spreadsheet's user keeps it from making a number of a text in a CSV file."""
MADE_FLOAT = re.compile(r"\d(?:[.,]\d+)?[Ee]\+\d{2,}", re.ASCII)
MONTHS = (
    "Jan|Feb|Mar|Mär|Mrz|Apr|May|Mai|Jun|Jul|Aug|Sep|Oct|Okt|Nov|Dec|Dez|janv|févr|mars|avr|juin|juil|août"
    "|sept|déc"
)
MADE_DATE = re.compile(
    rf"\d{{1,2}}(?:-|\. ?)(?:{MONTHS})\.?(?:[- ]\d{{2,4}})?|(?:{MONTHS})\.?[- ]\d{{2}}"
    r"|(?:19|20)\d\d-[01]\d-[0-3]\d(?: 00:00:00)?|[0-3]?\d[./][0-3]?\d[./](?:19|20)\d\d",
    re.ASCII,
)
"""How a spreadsheet writes what it took for a day."""
NOTHING = {"", "-", "--", "\N{EN DASH}", "\N{EM DASH}", "n/a", "N/A", "./."}


def plain(raw: str) -> str:
    """The text with single plain spaces, none round it, and without a spreadsheet's marks round it."""
    text = " ".join(raw.split())
    if text.startswith('="') and (kept := KEPT_AS_TEXT.fullmatch(text)):
        text = kept[1].strip()
    return text


def text_reader(longest: int) -> Callable[[Raw], str]:
    """Reads texts of at most so many characters; BadCell for others."""

    def read(raw: Raw) -> str:
        text = plain(raw if type(raw) is str else _written(raw))
        if not text.isprintable():
            raise BadCell(
                say("holds a character that can't be seen"),
                say("letters, figures and marks"),
            )
        if len(text) > longest:
            raise BadCell(
                say("has {count} characters", count=say_figure(len(text), 0)),
                say("at most {most}", most=longest),
            )
        return text

    return read


_short = text_reader(LONGEST_NUMBER)


def number_of(raw: Raw) -> str:
    """A part number; BadCell where there is none, or where a spreadsheet made something else of it."""
    text = _short(raw)
    if MADE_FLOAT.fullmatch(text):
        raise BadCell(
            say("was made a number by the spreadsheet, which has lost what stood there"), say(AS_TEXT)
        )
    if MADE_DATE.fullmatch(text):
        raise BadCell(say("was made a date by the spreadsheet"), say(AS_TEXT))
    if not any(map(str.isalnum, text)):
        raise BadCell(say("has no letter and no figure"), say("a part number"))
    return text


def successor_of(raw: Raw) -> str:
    """The number that takes the place of this one; empty for a dash or the like."""
    text = _short(raw).lstrip("=-\N{RIGHTWARDS ARROW}> ")
    return "" if text in NOTHING else number_of(text)


def _written(raw: Raw) -> str:
    """What a cell said before the spreadsheet took it for a number; BadCell where that can't be told."""
    if isinstance(raw, MadeDate):
        raise BadCell(say("was made a date by the spreadsheet"), say(AS_TEXT))
    if not isinstance(raw, Figure):
        raise BadCell(say("is an error, a time or a yes/no"), say(AS_TEXT))
    exact = Decimal(raw)
    if abs(exact) >= 10**EXACT_DIGITS:
        raise BadCell(
            say(
                "is a number of more than {count} digits, of which the spreadsheet has lost the last",
                count=EXACT_DIGITS,
            ),
            say(AS_TEXT),
        )
    if exact != exact.to_integral_value():
        raise BadCell(
            say("is a number with decimals, of which the spreadsheet may have lost noughts"), say(AS_TEXT)
        )
    return f"{exact:.0f}"
