"""The sentence on top, and what differs between the tiers: written from the numbers, never sold."""

from __future__ import annotations

from dataclasses import dataclass

from quotes.calc.sheet.values import Chance, Comparison, Option
from quotes.documents.words import (
    NO_BREAK,
    chance_with_band,
    estimate_in_words,
    inside,
    listed,
    plain_name,
    round_money,
    times_in_words,
)

_WAYS = {1: "One way", 2: "Two ways", 3: "Three ways"}
_ALL = {2: "Both ways", 3: "All three ways"}


@dataclass(frozen=True, slots=True)
class Verdict:
    """What to say first: one sentence, then what it costs and gives."""

    lead: str
    rest: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Difference:
    """What one option does more or less than the option before it."""

    name: str
    other: str
    more: str
    adds: tuple[str, ...]
    drops: tuple[str, ...]
    power: str


def verdict(comparison: Comparison, language: str = "") -> Verdict:
    """Which options can be told apart on finishing, by the paired comparison, and what the rest costs."""
    options = sorted(comparison.options, key=lambda option: option.planned_gross.typical)
    best = [option for option in options if "worse" not in _verdicts(option, options)]
    told = [_first_opened(option) for option in options[:1] if option.openings]
    told += [_dearer(option, options, best, comparison, language) for option in options[1:]]
    leave = comparison.leave_it
    told.append(f"Left as it is, the engine finishes {_finishing(leave.chance)}.")
    told += [
        _buys_nothing(option, comparison, language) for option in options[:1] if _same_as_leaving(option)
    ]
    return Verdict(_lead(options, best), tuple(told))


def ways_in_words(comparison: Comparison) -> str:
    """How many ways of building there are to choose from, for a heading."""
    return _WAYS.get(len(comparison.options), "Ways")


def differences(comparison: Comparison, language: str = "") -> tuple[Difference, ...]:
    """Each option against the one before it, in the order of the tiers."""
    pairs = zip(comparison.options, comparison.options[1:], strict=False)
    return tuple(_difference(before, after, comparison, language) for before, after in pairs)


def power_in_words(option: Option) -> str:
    """The gain in power, against a sound standard engine.

    A gain that may be nothing is said as nothing.
    """
    gain = option.power_gain_pct
    if round(gain.typical) < 1:
        return "power as new"
    return f"about {gain.typical:.0f}{NO_BREAK}% more power"


def _finishing(chance: Chance) -> str:
    return chance_with_band(chance.value, chance.low, chance.high)


def _verdicts(option: Option, among: list[Option]) -> set[str]:
    tiers = {other.tier for other in among}
    return {against.verdict for against in option.against if against.other in tiers}


def _lead(options: list[Option], best: list[Option]) -> str:
    words = _finishing(best[0].chance) if best else ""
    if len(options) == 1:
        return f"{options[0].name} finishes a season like yours {words}."
    if len(best) == len(options):
        ways = _ALL.get(len(options), "They")
        return f"{ways} can't be told apart on finishing your season: {words}."
    if len(best) == 1:
        return f"{best[0].name} is the likeliest to finish your season: {words}."
    names = listed([best[0].name, *(inside(option.name) for option in best[1:])])
    return f"{names} can't be told apart on finishing your season: {words}." if best else "No two ways agree."


def _dearer(
    option: Option, options: list[Option], best: list[Option], comparison: Comparison, language: str
) -> str:
    cheapest = options[0]
    apart = option.planned_gross.typical - cheapest.planned_gross.typical
    more = round_money(apart, comparison.currency, language)
    about = "" if comparison.firm else "about "
    sentence = f"{option.name} costs {about}{more} more than {inside(cheapest.name)}"
    if option.season or cheapest.season:
        sentence += " over the season, openings with it,"
    gain = power_in_words(option)
    sentence += f" and should give {gain}" if gain != "power as new" else " and gives no more power"
    if option not in best:
        sentence += f", but {_finishes_less(option, options)}"
    return f"{sentence}.{_opened(option)}"


def _finishes_less(option: Option, options: list[Option]) -> str:
    words = _finishing(option.chance)
    if _same_as_leaving(option):
        return f"can't be told apart from leaving the engine as it is: {words}"
    least = option.chance.value == min(each.chance.value for each in options)
    return f"is {'the least likely' if least else 'less likely'} to finish: {words}"


def _first_opened(option: Option) -> str:
    return _opened(option).strip().replace("It must", f"{option.name} must", 1)


def _opened(option: Option) -> str:
    """An opening that the season can't do without belongs in the first sentences."""
    if not option.openings:
        return ""
    first = estimate_in_words(option.openings[0].amount, option.openings[0].unit)
    if option.season is None:
        return f" It must be opened again at {first}."
    count = len(option.openings)
    again = f"at {first}" if count == 1 else f"{times_in_words(count)}, first at {first}"
    return f" It must be opened again {again}; that is counted in."


def _same_as_leaving(option: Option) -> bool:
    return any(
        against.other.startswith("leave") and against.verdict == "cannot be told apart"
        for against in option.against
    )


def _buys_nothing(option: Option, comparison: Comparison, language: str) -> str:
    apart = option.gross.typical - comparison.leave_it.gross
    more = round_money(apart, comparison.currency, language)
    return (
        f"{option.name} buys nothing that can be measured on this season over leaving the engine as it is, "
        f"and costs {more} more."
    )


def _difference(before: Option, after: Option, comparison: Comparison, language: str) -> Difference:
    old, new = ({**option.renewed, **option.reconditioned} for option in (before, after))
    apart = after.gross.typical - before.gross.typical
    sign = "+" if apart >= 0 else ""
    return Difference(
        name=after.name,
        other=inside(before.name),
        more=sign + round_money(apart, comparison.currency, language),
        adds=tuple(plain_name(reason.name) for code, reason in new.items() if code not in old),
        drops=tuple(plain_name(reason.name) for code, reason in old.items() if code not in new),
        power=power_in_words(after),
    )
