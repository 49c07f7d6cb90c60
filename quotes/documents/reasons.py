"""What is renewed and why, what is left and its risk: one option alone, or all of them side by side."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.calc.said import say, to_say
from quotes.calc.sheet.line_values import Reason, Risk, State
from quotes.calc.sheet.sentences import COUNTS_IN_100, counts_for_safety
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.words import first_large, inside, listed, money, plain_name, risk_count, risk_in_words

_ORDER: dict[State, int] = {"must": 0, "worth it": 1, "offered": 2, "left": 3}
STATES: dict[State, str] = {
    "must": to_say("must"),
    "worth it": to_say("worth it"),
    "offered": to_say("offered"),
    "left": to_say("left"),
}
_TIER = "tier"
"""Code of a reason that is nothing but the tier itself: the option's name says it."""


@dataclass(frozen=True, slots=True)
class Why:
    """Parts that are dealt with for one and the same reason."""

    state: State
    parts: str
    sentence: str


@dataclass(frozen=True, slots=True)
class WhatIf:
    """A part that stays as it is, what it may do, and what taking it in would cost before tax."""

    component: str
    state: str
    part: str
    sentence: str
    risk: str
    cost: str
    rider_safety: bool


@dataclass(frozen=True, slots=True)
class Across:
    """One row of all options side by side: a word for each."""

    parts: str
    sentence: str
    cells: tuple[str, ...]


def renewed(option: Option) -> tuple[Why, ...]:
    """Why each part is renewed or worked on, musts first; parts with one reason share a row."""
    grouped: dict[tuple[State, str], list[str]] = {}
    for reason in sorted(_reasons(option).values(), key=lambda each: _ORDER[each.state]):
        grouped.setdefault((reason.state, reason.sentence), []).append(reason.name)
    return tuple(Why(state, _row_name(names), sentence) for (state, sentence), names in grouped.items())


def kept(option: Option, comparison: Comparison, language: str = "") -> tuple[WhatIf, ...]:
    """What is offered and what is left, the likeliest to stop the engine first.

    What is left with no risk that can be counted shares the last row.
    """
    told = [risk for risk in _worst_first(option.left) if tells(risk)]
    return (
        *(_what_if(risk, "offered", comparison, language) for risk in _worst_first(option.offered)),
        *(_what_if(risk, "left", comparison, language) for risk in told),
        *_small(option),
    )


def safety_left(option: Option) -> tuple[Risk, ...]:
    """Parts left as they are that can lock the wheel or oil the tyre, and whose risk is worth naming."""
    both = {**option.left, **option.offered}
    return tuple(risk for risk in _worst_first(both) if counts_for_safety(risk))


def leaves_safety(option: Option) -> bool:
    """Whether anything at all is left that can lock the wheel or oil the tyre: it takes a tick of its own."""
    return any(risk.rider_safety for risk in (*option.left.values(), *option.offered.values()))


def safety_warnings(comparison: Comparison) -> tuple[tuple[str, str], ...]:
    """Names of options, and the rider-safety parts that all of these leave."""
    told: dict[str, list[str]] = {}
    for option in comparison.options:
        if parts := [inside(plain_name(risk.name)) for risk in safety_left(option)]:
            told.setdefault(listed(parts), []).append(inside(option.name))
    return tuple((listed(names), parts) for parts, names in told.items())


def renewed_across(comparison: Comparison) -> tuple[Across, ...]:
    """Every part that some option renews, with the word for it under each option."""
    by_option = [_reasons(option) for option in comparison.options]
    grouped: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for component in _ordered(by_option):
        found = [reasons.get(component) for reasons in by_option]
        words = tuple(reason.state if reason else "" for reason in found)
        known = next(reason for reason in found if reason)
        grouped.setdefault((_sentence(comparison, found), words), []).append(known.name)
    return tuple(Across(_row_name(names), sentence, words) for (sentence, words), names in grouped.items())


def kept_across(comparison: Comparison) -> tuple[Across, ...]:
    """Every part that some option leaves and whose risk can be counted, with its risk under each option.

    `small_across` names the others.
    """
    by_option = [{**option.offered, **option.left} for option in comparison.options]
    components = dict.fromkeys(component for risks in by_option for component in risks)
    rows = []
    for component in components:
        found = [risks.get(component) for risks in by_option]
        known = [risk for risk in found if risk]
        if any(map(tells, known)):
            words = tuple(risk_count(risk.stops_in_100) if risk else "" for risk in found)
            rows.append(Across(_row_name([known[0].name]), _risk_sentence(known[0]), words))
    return tuple(rows)


def small_across(comparison: Comparison) -> str:
    """Names of the parts that some option leaves, and that are far from worn in all of them."""
    risks: dict[str, list[Risk]] = {}
    for option in comparison.options:
        for component, risk in {**option.offered, **option.left}.items():
            risks.setdefault(component, []).append(risk)
    return listed([inside(plain_name(each[0].name)) for each in risks.values() if not any(map(tells, each))])


def tells(risk: Risk) -> bool:
    """Whether a part that is left deserves a row of its own."""
    return bool(risk.refused_by) or risk.used_pct_at_end >= 100 or risk.stops_in_100 >= COUNTS_IN_100


def _small(option: Option) -> tuple[WhatIf, ...]:
    risks = [risk for risk in option.left.values() if not tells(risk)]
    if not risks:
        return ()
    safety = any(risk.rider_safety for risk in risks)
    names = _row_name([risk.name for risk in risks])
    return (WhatIf("", "left", names, say("Far from worn."), say("each less than 1 in 100"), "", safety),)


def _reasons(option: Option) -> dict[str, Reason]:
    recut = {
        component: reason.model_copy(update={"name": say("{part}, worked on", part=reason.name)})
        for component, reason in option.reconditioned.items()
    }
    return {**option.renewed, **recut}


def _ordered(by_option: list[dict[str, Reason]]) -> Iterable[str]:
    components = dict.fromkeys(component for reasons in by_option for component in reasons)

    def strongest(component: str) -> int:
        return min(_ORDER[reasons[component].state] for reasons in by_option if component in reasons)

    return sorted(components, key=strongest)


def _sentence(comparison: Comparison, found: list[Reason | None]) -> str:
    """The reason of the first option that has one, and of others only where it is another kind of reason."""
    told: dict[str, str] = {}
    named: dict[str, list[str]] = {}
    for option, reason in zip(comparison.options, found, strict=True):
        if reason:
            told.setdefault(reason.code, reason.sentence)
            named.setdefault(reason.code, []).append(option.name)
    if _TIER in told:
        told[_TIER] = say("Part of {options}.", options=listed([inside(name) for name in named[_TIER]]))
    others = [code for code in told if code != _TIER]
    if len(others) < 2:
        return " ".join(told.values())
    return " ".join(
        sentence if code == _TIER else f"{listed(named[code])}: {inside(sentence)}"
        for code, sentence in told.items()
    )


def _worst_first(risks: Mapping[str, Risk]) -> list[Risk]:
    return sorted(risks.values(), key=lambda risk: -risk.stops_in_100)


def _what_if(risk: Risk, state: str, comparison: Comparison, language: str) -> WhatIf:
    return WhatIf(
        component=risk.component,
        state=state,
        part=_row_name([risk.name]),
        sentence=_risk_sentence(risk),
        risk=risk_in_words(risk.stops_in_100),
        cost=money(risk.cost_to_renew, comparison.currency, comparison.decimals, language),
        rider_safety=risk.rider_safety,
    )


def _risk_sentence(risk: Risk) -> str:
    if not risk.refused_by:
        return risk.sentence
    return " ".join((risk.sentence, say("Left by the signed word of {name}.", name=risk.refused_by)))


def _row_name(names: list[str]) -> str:
    """Names at the head of a row: the first letter large, the others as they stand in a sentence."""
    return first_large(listed([inside(plain_name(name)) for name in names]))
