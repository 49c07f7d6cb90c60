"""The sentence on top, and what differs between the tiers: written from the numbers, never sold."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.chance_values import Chance
from quotes.calc.sheet.values import Comparison, Option
from quotes.calc.sheet.words import joined
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

_WAYS = {1: to_say("One way"), 2: to_say("Two ways"), 3: to_say("Three ways")}
_MANY_WAYS = to_say("Ways")
_ALIKE = {
    2: to_say("Both ways can't be told apart on finishing your season: {finishing}."),
    3: to_say("All three ways can't be told apart on finishing your season: {finishing}."),
}
_ALIKE_OF_MANY = to_say("They can't be told apart on finishing your season: {finishing}.")
_DEARER = {
    (False, False): to_say("{name} costs {more} more than {cheapest}"),
    (True, False): to_say("{name} costs about {more} more than {cheapest}"),
    (False, True): to_say("{name} costs {more} more than {cheapest} over the season, openings with it,"),
    (True, True): to_say("{name} costs about {more} more than {cheapest} over the season, openings with it,"),
}
"""By whether the price is an estimate, and whether openings are in it."""
_GIVES, _GIVES_NONE = to_say("{costs} and should give {power}"), to_say("{costs} and gives no more power")


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
    same: bool
    """The same work at the same price."""

    @property
    def adds_in_words(self) -> str:
        return joined(self.adds)

    @property
    def drops_in_words(self) -> str:
        return joined(self.drops)


def verdict(comparison: Comparison, language: str = "") -> Verdict:
    """Which options can be told apart on finishing, by the paired comparison, and what the rest costs."""
    options = sorted(comparison.options, key=lambda option: option.planned_gross.typical)
    best = [option for option in options if "worse" not in _verdicts(option, options)]
    told = [_first_opened(option) for option in options[:1] if option.openings]
    told += [_dearer(option, options, best, comparison, language) for option in options[1:]]
    leave = comparison.leave_it
    left = _finishing(leave.chance)
    told.append(say("Left as it is, the engine finishes {finishing}.", finishing=left))
    told += [
        _buys_nothing(option, comparison, language) for option in options[:1] if _same_as_leaving(option)
    ]
    return Verdict(_lead(options, best), tuple(told))


def ways_in_words(comparison: Comparison) -> str:
    """How many ways of building there are to choose from, for a heading."""
    return say(_WAYS.get(len(comparison.options), _MANY_WAYS))


def differences(comparison: Comparison, language: str = "") -> tuple[Difference, ...]:
    """Each option against the one before it, in the order of the tiers."""
    pairs = zip(comparison.options, comparison.options[1:], strict=False)
    return tuple(_difference(before, after, comparison, language) for before, after in pairs)


def power_in_words(option: Option) -> str:
    """The gain in power, against a sound standard engine.

    A gain that may be nothing is said as nothing.
    """
    gain = option.power_gain_pct
    if not _gains_power(option):
        return say("power as new")
    return say("about {gain} more power", gain=f"{gain.typical:.0f}{NO_BREAK}%")


def _gains_power(option: Option) -> bool:
    return round(option.power_gain_pct.typical) >= 1


def _finishing(chance: Chance) -> str:
    return chance_with_band(chance.value, chance.low, chance.high)


def _verdicts(option: Option, among: list[Option]) -> set[str]:
    tiers = {other.tier for other in among}
    return {against.verdict for against in option.against if against.other in tiers}


def _lead(options: list[Option], best: list[Option]) -> str:
    words = _finishing(best[0].chance) if best else ""
    if len(options) == 1:
        return say("{name} finishes a season like yours {finishing}.", name=options[0].name, finishing=words)
    if len(best) == len(options):
        return say(_ALIKE.get(len(options), _ALIKE_OF_MANY), finishing=words)
    if len(best) == 1:
        likeliest = best[0].name
        return say(
            "{name} is the likeliest to finish your season: {finishing}.", name=likeliest, finishing=words
        )
    if not best:
        return say("No two ways agree.")
    names = listed([best[0].name, *(inside(option.name) for option in best[1:])])
    return say(
        "{names} can't be told apart on finishing your season: {finishing}.", names=names, finishing=words
    )


def _dearer(
    option: Option, options: list[Option], best: list[Option], comparison: Comparison, language: str
) -> str:
    cheapest = options[0]
    if _same_work(option, cheapest):
        return say(
            "{name} is the same work as {other}, at the same price.",
            name=option.name,
            other=inside(cheapest.name),
        )
    apart = option.planned_gross.typical - cheapest.planned_gross.typical
    more = round_money(apart, comparison.currency, language)
    opened = bool(option.season or cheapest.season)
    costs = say(
        _DEARER[not comparison.firm, opened], name=option.name, more=more, cheapest=inside(cheapest.name)
    )
    gives = _GIVES if _gains_power(option) else _GIVES_NONE
    sentence = say(gives, costs=costs, power=power_in_words(option))
    if option not in best:
        sentence = say(
            "{sentence}, but {finishes}", sentence=sentence, finishes=_finishes_less(option, options)
        )
    return f"{sentence}.{_opened(option)}"


def same_as(option: Option, comparison: Comparison) -> str:
    """The earlier option that is the same work at the same price, as named inside a sentence, or nothing."""
    before = comparison.options[: comparison.options.index(option)]
    return next((inside(each.name) for each in before if _same_work(option, each)), "")


def _same_work(option: Option, other: Option) -> bool:
    """An engine that came in as the one already is only freshened by both."""
    lines, others = (
        [(line.key, line.quantity, line.net) for line in (*each.lines, *each.if_needed)]
        for each in (option, other)
    )
    return option.planned_gross == other.planned_gross and lines == others


def _finishes_less(option: Option, options: list[Option]) -> str:
    words = _finishing(option.chance)
    if _same_as_leaving(option):
        return say("can't be told apart from leaving the engine as it is: {finishing}", finishing=words)
    if option.chance.value == min(each.chance.value for each in options):
        return say("is the least likely to finish: {finishing}", finishing=words)
    return say("is less likely to finish: {finishing}", finishing=words)


def _first_opened(option: Option) -> str:
    return _opened_again(option, option.name)


def _opened(option: Option) -> str:
    """An opening that the season can't do without belongs in the first sentences."""
    return " " + _opened_again(option, say("It")) if option.openings else ""


def _opened_again(option: Option, name: str) -> str:
    first = estimate_in_words(option.openings[0].amount, option.openings[0].unit)
    if option.season is None:
        return say("{name} must be opened again at {first}.", name=name, first=first)
    count = len(option.openings)
    if count == 1:
        return say("{name} must be opened again at {first}; that is counted in.", name=name, first=first)
    return say(
        "{name} must be opened again {times}, first at {first}; that is counted in.",
        name=name,
        times=times_in_words(count),
        first=first,
    )


def _same_as_leaving(option: Option) -> bool:
    return any(
        against.other.startswith("leave") and against.verdict == "cannot be told apart"
        for against in option.against
    )


def _buys_nothing(option: Option, comparison: Comparison, language: str) -> str:
    apart = option.gross.typical - comparison.leave_it.gross
    more = round_money(apart, comparison.currency, language)
    return say(
        "{name} buys nothing that can be measured on this season over leaving the engine as it is, and costs "
        "{more} more.",
        name=option.name,
        more=more,
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
        power=_power_against(before, after),
        same=_same_work(after, before),
    )


def _power_against(before: Option, after: Option) -> str:
    """What the one gives more or less than the other: each gain is held against what is fitted now."""
    had, has = (100 + each.power_gain_pct.typical for each in (before, after))
    gain = round(100 * (has / had - 1))
    if not gain:
        return say("the same power")
    amount = f"{abs(gain)}{NO_BREAK}%"
    return (
        say("about {gain} more power", gain=amount)
        if gain > 0
        else say("about {gain} less power", gain=amount)
    )
