"""What stays in sight while the lines of a worked sheet are gone through, and what an edit did to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.request import Refusal, Request
from quotes.calc.sheet.values import Option
from quotes.calc.sheet.words import estimate_in_words, percent_band, whole_percent
from quotes.documents.words import day, figure, low_to_high
from quotes.forms.edits import refuse
from quotes.queries.comparison import comparison_for


@dataclass(frozen=True, slots=True)
class Running:
    """One figure of the option; `before` is what it was ahead of the edit, where that moved it."""

    asked: str
    words: str
    beside: str = ""
    before: str = ""


def running(option: Option, was: Option | None = None) -> tuple[Running, ...]:
    """Price, chance, life and date of the option, against the same option before the edit."""
    old = [each.words for each in _figures(was)] if was else []
    return tuple(
        Running(
            each.asked, each.words, each.beside, "" if not old or old[place] == each.words else old[place]
        )
        for place, each in enumerate(_figures(option))
    )


def without(asked: Request, option: Option, component: str) -> tuple[Running, ...]:
    """What the option would come to with a must line left, before anybody has signed for it.

    Nothing where it can't be left so: pressing the button says why.
    """
    unsigned = Refusal(component=component, signed_by="-", on=asked.on, reason="-")
    try:
        after = comparison_for(refuse(asked, option.tier, unsigned)).option(option.tier)
    except (BadRequest, LookupError):
        return ()
    return () if component in after.renewed or component in after.reconditioned else running(after, option)


def _figures(option: Option) -> Iterator[Running]:
    low, high = (figure(each) for each in (option.gross.low, option.gross.high))
    band = "" if low == high else low_to_high(low, high)
    yield Running(say("With tax"), figure(option.gross.typical), band)
    chance = option.chance
    yield Running(say("Finishes"), whole_percent(chance.value), percent_band(chance.low, chance.high))
    yield Running(say("Good for"), estimate_in_words(option.good_for.amount, option.good_for.unit))
    yield Running(say("Ready"), day(option.ready.p80), say("8 in 10"))
