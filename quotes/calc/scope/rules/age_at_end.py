"""Age: a component judged by its life is renewed when the planned service would take it past that life."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say, to_say
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must, marked
from quotes.calc.sheet.words import used_in_words

INTERVAL_UP = to_say("Its own interval is up before this service ends.")
HALF_USED = 0.5
"""A part too short-lived for the whole service is renewed at its start only when it is half used."""


def find(case: Case) -> Iterator[Must]:
    """One demand for each component judged by life whose age at the end passes it.

    The end is that of the planned service, or the first opening where even a new engine must be opened
    inside it.
    """
    for code, component in case.catalogue.components.items():
        used = case.used[code]
        if component.judged_by != "life" or not used.known or used.share <= 0.0:
            continue
        wear = case.levels[code].left if code in case.levels else case.wear(code, used.share, "stock")
        spent = wear.rate * case.leg / wear.life
        too_short = spent > 1.0
        if used.share + spent > 1.0 and (not too_short or used.share >= HALF_USED):
            sentence = _sentence(used.share, used.share + spent, opened=case.leg < case.use)
            said = say(INTERVAL_UP) if component.service_item else marked(case.request, code, sentence)
            yield Must(("new", code), "age", said)


def _sentence(before: float, after: float, *, opened: bool) -> str:
    if before >= 1.0:
        return say("Past its planned life: {percent} used.", percent=used_in_words(before))
    now, then = used_in_words(before), used_in_words(after)
    if opened:
        return say(
            "{now} of its planned life used; {then} when the engine is next opened.", now=now, then=then
        )
    return say("{now} of its planned life used; {then} at the end of this service.", now=now, then=then)
