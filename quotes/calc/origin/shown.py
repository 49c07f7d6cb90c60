"""What a stored sheet says of a figure, held against the same figure worked out again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal

from catalogue.calc.said import say, to_say
from quotes.calc.origin.values import hours, money, on_day
from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.values import LeaveIt, Option
from quotes.calc.sheet.words import (
    chance_in_words,
    estimate_in_words,
    percent_band,
    risk_in_words,
    whole_percent,
)

Shown = Option | LeaveIt
_OF_ANY: dict[str, tuple[str, Callable[[Shown], str]]] = {
    "chance": (to_say("Chance of finishing"), lambda o: _chance(o)),
    "wheel_lock": (
        to_say("Locked wheel or oil on the tyre"),
        lambda o: risk_in_words(100 * o.wheel_lock.value),
    ),
    "good_for": (to_say("Good for"), lambda o: estimate_in_words(o.good_for.amount, o.good_for.unit)),
    "hours": (to_say("Bench hours"), lambda o: hours(o.hours)),
    "net": (to_say("Net"), lambda o: money(_typical(o.net))),
    "gross": (to_say("With tax"), lambda o: money(_typical(o.gross))),
}
_OF_OPTION: dict[str, tuple[str, Callable[[Option], str]]] = {
    "deposit": (to_say("Deposit"), lambda o: money(o.deposit)),
    "per_season": (to_say("Cost for a season"), lambda o: money(o.cost_per_season)),
    "ready": (to_say("Ready, 8 in 10"), lambda o: on_day(o.ready.p80)),
}


def _typical(sum_: Spread | Decimal) -> Decimal:
    return sum_ if isinstance(sum_, Decimal) else sum_.typical


def _chance(way: Shown) -> str:
    chance = way.chance
    likely = say("likely {band}", band=percent_band(chance.low, chance.high))
    return f"{chance_in_words(chance.value)}, {whole_percent(chance.value)}, {likely}"


def _said(key: str, way: Shown) -> str:
    if key in _OF_ANY:
        return _OF_ANY[key][1](way)
    return _OF_OPTION[key][1](way) if isinstance(way, Option) and key in _OF_OPTION else ""


def moved(issued: Shown, now: Shown) -> Iterator[tuple[str, str, str]]:
    """Each figure that is said otherwise now: its name, as issued, and as worked out again."""
    for key, (name, _) in {**_OF_ANY, **_OF_OPTION}.items():
        before, after = _said(key, issued), _said(key, now)
        if before != after:
            yield say(name), before, after


def issued_otherwise(key: str, issued: Shown, now: Shown) -> str:
    """What the issued sheet says of this figure, where that is not what is shown now; else nothing."""
    kind, _, code = key.partition(":")
    before, after = _said(key, issued), _said(key, now)
    if isinstance(issued, Option) and isinstance(now, Option):
        if kind == "line":
            before, after = (_line(option, code) for option in (issued, now))
        elif kind in {"component", "adding"}:
            before, after = (_risk(option, code, kind) for option in (issued, now))
    return before if before != after else ""


def _line(option: Option, key: str) -> str:
    return next((money(line.net) for line in option.lines if line.key == key), say("no such line"))


def _risk(option: Option, code: str, kind: str) -> str:
    if code in option.renewed or code in option.reconditioned:
        return say("renewed") if code in option.renewed else say("put right")
    risk = option.offered.get(code) or option.left.get(code)
    if risk is None:
        return say("not counted")
    return (
        money(risk.cost_to_renew)
        if kind == "adding"
        else say("stops {risk}", risk=risk_in_words(risk.stops_in_100))
    )
