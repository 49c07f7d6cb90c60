"""What a stored sheet says of a figure, held against the same figure worked out again."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from quotes.calc.origin.values import hours, money
from quotes.calc.sheet.values import Option
from quotes.calc.sheet.words import (
    chance_in_words,
    estimate_in_words,
    percent_band,
    risk_in_words,
    whole_percent,
)

_SHOWN: dict[str, tuple[str, Callable[[Option], str]]] = {
    "chance": ("Chance of finishing", lambda o: _chance(o)),
    "wheel_lock": ("Locked wheel or oil on the tyre", lambda o: risk_in_words(100 * o.wheel_lock.value)),
    "good_for": ("Good for", lambda o: estimate_in_words(o.good_for.amount, o.good_for.unit)),
    "hours": ("Bench hours", lambda o: hours(o.hours)),
    "net": ("Net", lambda o: money(o.net.typical)),
    "gross": ("With tax", lambda o: money(o.gross.typical)),
    "deposit": ("Deposit", lambda o: money(o.deposit)),
    "per_season": ("Cost for a season", lambda o: money(o.cost_per_season)),
    "ready": ("Ready, 8 in 10", lambda o: f"{o.ready.p80:%d %b %Y}"),
}


def _chance(option: Option) -> str:
    chance = option.chance
    band = percent_band(chance.low, chance.high)
    return f"{chance_in_words(chance.value)}, {whole_percent(chance.value)}, likely {band}"


def moved(issued: Option, now: Option) -> Iterator[tuple[str, str, str]]:
    """Each figure that is said otherwise now: its name, as issued, and as worked out again."""
    for name, said in _SHOWN.values():
        before, after = said(issued), said(now)
        if before != after:
            yield name, before, after


def issued_otherwise(key: str, issued: Option, now: Option) -> str:
    """What the issued sheet says of this figure, where that is not what is shown now; else nothing."""
    kind, _, code = key.partition(":")
    if key in _SHOWN:
        before, after = _SHOWN[key][1](issued), _SHOWN[key][1](now)
    elif kind == "line":
        before, after = (_line(option, code) for option in (issued, now))
    elif kind in {"component", "adding"}:
        before, after = (_risk(option, code, kind) for option in (issued, now))
    else:
        return ""
    return before if before != after else ""


def _line(option: Option, key: str) -> str:
    return next((money(line.net) for line in option.lines if line.key == key), "no such line")


def _risk(option: Option, code: str, kind: str) -> str:
    if code in option.renewed or code in option.reconditioned:
        return "renewed" if code in option.renewed else "put right"
    risk = option.offered.get(code) or option.left.get(code)
    if risk is None:
        return "not counted"
    return money(risk.cost_to_renew) if kind == "adding" else f"stops {risk_in_words(risk.stops_in_100)}"
