"""The number under a bar code: its digits, checked against the last of them."""

from __future__ import annotations

from stdnum import ean
from stdnum.exceptions import InvalidChecksum, ValidationError

from catalogue.calc.said import say, to_say
from quotes.imports.cell_values import BadCell
from quotes.imports.price_list.limits import Raw
from quotes.imports.price_list.texts import MADE_FLOAT, NOTHING, text_reader

LENGTHS = (8, 12, 13, 14)
LONGEST = 40
ALLOWED = to_say("8, 12, 13 or 14 digits of which the last checks the others, or nothing")
_text = text_reader(LONGEST)


def gtin_of(raw: Raw) -> str:
    """The GTIN in a cell; empty for a dash or the like, BadCell for what is none.

    One that the spreadsheet made a number has its leading noughts again: they change no check digit.
    """
    text = _text(raw)
    if not (text.isascii() and text.isdigit()):
        if text in NOTHING:
            return ""
        if MADE_FLOAT.fullmatch(text):
            raise BadCell(say("was made a number by the spreadsheet, and lost its last digits"), say(ALLOWED))
        text = ean.compact(text)
    if type(raw) is not str:
        text = text.zfill(next((length for length in LENGTHS if length >= len(text)), 0))
    if len(text) in LENGTHS and checks(text):
        return text
    return _refused(text)


def checks(digits: str) -> bool:
    """Whether the last digit fits the others: quick, for a hundred thousand of them.

    >>> checks("4006381333931"), checks("4006381333932")
    (True, False)
    """
    codes = digits.encode()
    odd, even = codes[-1::-2], codes[-2::-2]
    return (sum(odd) - 48 * len(odd) + 3 * (sum(even) - 48 * len(even))) % 10 == 0


def _refused(text: str) -> str:
    """What python-stdnum says of it has the last word."""
    try:
        return str(ean.validate(text))
    except InvalidChecksum as error:
        due = ean.calc_check_digit(text[:-1])
        raise BadCell(say("ends with a wrong check digit, {due} is due", due=due), say(ALLOWED)) from error
    except ValidationError as error:
        raise BadCell(say("is no GTIN"), say(ALLOWED)) from error
