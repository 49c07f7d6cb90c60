"""Sentences and figures in the reader's language.

The sums write English. Where the site runs, `speak_through` has handed in what turns a sentence into the
language of who reads it; without it, as in a test of the sums, English stays. A sentence is given whole, with
its places in braces: another language puts them elsewhere.

    >>> say("{count} of {all}", count=3, all=20)
    '3 of 20'
    >>> say_count("{count} hour", "{count} hours", 1)
    '1 hour'
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

CONTEXT_END = "\x04"
"""Between a context and the text, as gettext has it."""


def _as_written(text: str) -> str:
    return text


def _english_count(one: str, many: str, count: int) -> str:
    return one if count == 1 else many


def _english_figure(value: float | Decimal, decimals: int) -> str:
    return f"{value:,.{decimals}f}"


def english_inside(name: str) -> str:
    """Small, but for an abbreviation."""
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


@dataclass(slots=True)
class _Speech:
    text: Callable[[str], str] = _as_written
    count: Callable[[str, str, int], str] = _english_count
    figure: Callable[[float | Decimal, int], str] = _english_figure
    inside: Callable[[str], str] = english_inside


_speech = _Speech()


def speak_through(
    text: Callable[[str], str],
    count: Callable[[str, str, int], str],
    figure: Callable[[float | Decimal, int], str],
    inside: Callable[[str], str],
) -> None:
    """Say everything from now on through these.

    They are a text, a text by count, a figure with its decimals, a name as it stands inside a sentence.
    """
    _speech.text, _speech.count, _speech.figure, _speech.inside = text, count, figure, inside


def say(text: str, /, **places: object) -> str:
    """The sentence in the reader's language. KeyError where it names a place that is not given."""
    said = _speech.text(text)
    return said.format(**places) if places else said


def say_as(context: str, text: str) -> str:
    """A word as it is said in one context; where it has no saying of its own there, as everywhere.

    >>> say_as("name of a field", "order")
    'order'
    """
    whole = f"{context}{CONTEXT_END}{text}"
    said = _speech.text(whole)
    return say(text) if said == whole else said


def to_say(text: str) -> str:
    """The same text. It marks what stands in a table and is said later, as `say(TABLE[key])`."""
    return text


def say_count(one: str, many: str, count: int, /, **places: object) -> str:
    """The sentence for that many, which stands at `{count}`."""
    return _speech.count(one, many, count).format(count=count, **places)


def say_figure(value: float | Decimal, decimals: int) -> str:
    """A number with its decimals and thousands as the reader writes them."""
    return _speech.figure(value, decimals)


def say_inside(name: str) -> str:
    """A name as it stands inside a sentence: in English small, but for an abbreviation.

    >>> say_inside("Full power"), say_inside("GP kit")
    ('full power', 'GP kit')
    """
    return _speech.inside(name)
