"""What is renewed and why, what is left and its risk: one option alone, or all of them side by side."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from quotes.calc.sheet import Comparison, Option, Reason, Risk, State
from quotes.documents.verdict import inside
from quotes.documents.words import listed, money, risk_count, risk_in_words

_ORDER: dict[State, int] = {"must": 0, "worth it": 1, "offered": 2, "left": 3}


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
    refused_by: str


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


def kept(option: Option, comparison: Comparison, language: str = "en") -> tuple[WhatIf, ...]:
    """What is offered and what is left, the likeliest to stop the engine first."""
    rows = [
        *(_what_if(risk, "offered", comparison, language) for risk in _worst_first(option.offered)),
        *(_what_if(risk, "left", comparison, language) for risk in _worst_first(option.left)),
    ]
    return tuple(rows)


def safety_left(option: Option) -> tuple[Risk, ...]:
    """Parts left as they are that can lock the wheel or oil the tyre: each needs the customer's own tick."""
    return tuple(risk for risk in (*option.left.values(), *option.offered.values()) if risk.rider_safety)


def safety_warnings(comparison: Comparison) -> tuple[tuple[str, str], ...]:
    """Names of options, and the rider-safety parts that all of these leave."""
    told: dict[str, list[str]] = {}
    for option in comparison.options:
        if parts := [inside(risk.name) for risk in safety_left(option)]:
            told.setdefault(listed(parts), []).append(inside(option.name))
    return tuple((listed(names), parts) for parts, names in told.items())


def renewed_across(comparison: Comparison) -> tuple[Across, ...]:
    """Every part that some option renews, with the word for it under each option."""
    by_option = [_reasons(option) for option in comparison.options]
    grouped: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for component in _ordered(by_option):
        found = [reasons.get(component) for reasons in by_option]
        words = tuple(reason.state if reason else "" for reason in found)
        sentence, name = _sentences(comparison, found)
        grouped.setdefault((sentence, words), []).append(name)
    return tuple(Across(_row_name(names), sentence, words) for (sentence, words), names in grouped.items())


def kept_across(comparison: Comparison) -> tuple[Across, ...]:
    """Every part that some option leaves, with its risk under each option."""
    by_option = [{**option.offered, **option.left} for option in comparison.options]
    components = dict.fromkeys(component for risks in by_option for component in risks)
    rows = []
    for component in components:
        found = [risks.get(component) for risks in by_option]
        known = next(risk for risk in found if risk)
        words = tuple(risk_count(risk.stops_in_100) if risk else "" for risk in found)
        rows.append(Across(_row_name([known.name]), _risk_sentence(known), words))
    return tuple(rows)


def _reasons(option: Option) -> dict[str, Reason]:
    recut = {
        component: reason.model_copy(update={"name": f"{reason.name}, worked on"})
        for component, reason in option.reconditioned.items()
    }
    return {**option.renewed, **recut}


def _ordered(by_option: list[dict[str, Reason]]) -> Iterable[str]:
    components = dict.fromkeys(component for reasons in by_option for component in reasons)

    def strongest(component: str) -> int:
        return min(_ORDER[reasons[component].state] for reasons in by_option if component in reasons)

    return sorted(components, key=strongest)


def _sentences(comparison: Comparison, found: list[Reason | None]) -> tuple[str, str]:
    """One sentence where the options agree; else each with the names of those it holds for."""
    known = [
        (option.name, reason) for option, reason in zip(comparison.options, found, strict=True) if reason
    ]
    told: dict[str, list[str]] = {}
    for option_name, reason in known:
        told.setdefault(reason.sentence, []).append(option_name)
    if len(told) == 1:
        return known[0][1].sentence, known[0][1].name
    parts = [f"{listed(names)}: {sentence}" for sentence, names in told.items()]
    return " ".join(parts), known[0][1].name


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
        refused_by=risk.refused_by,
    )


def _risk_sentence(risk: Risk) -> str:
    refused = f" Left by the signed word of {risk.refused_by}." if risk.refused_by else ""
    return f"{risk.sentence}{refused}"


def _row_name(names: list[str]) -> str:
    """Names at the head of a row: the first letter large, the others as they stand in a sentence."""
    first, *others = names
    return listed([first[:1].upper() + first[1:], *map(inside, others)])
