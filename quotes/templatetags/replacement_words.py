"""The ages at which components are best renewed, in words, as template tags."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

from django import template
from django.utils import timezone

from catalogue.calc.engine import Basis
from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.life.replacement import Never, Replacement
from quotes.calc.scope.replacement_ages import ReplacementAge
from quotes.documents.words import money, round_money
from quotes.queries.replacement import ages_of_component

register = template.Library()

UNITS: dict[Basis, str] = {"miles": to_say("miles"), "hours_mx": to_say("hours")}
PER: dict[Basis, tuple[int, str]] = {"miles": (100, to_say("100 miles")), "hours_mx": (1, to_say("an hour"))}
"""Costs are said for so much use."""
WHY: dict[Never, str] = {
    "does not wear": to_say("never: its hazard does not rise with age"),
    "costs no more": to_say("never: failed it costs no more than renewed"),
    "hardly any last": to_say("never: hardly any would reach the age that costs least"),
}


@register.inclusion_tag("quotes/replacement/of_component.html", takes_context=True)
def replacement_of(context: dict[str, Any], code: str) -> dict[str, Any]:
    """When one component is best renewed, on every engine type and basis."""
    found = ages_of_component(code, timezone.localdate())
    return {"found": found, "per": PER, "site": context["site"]}


@register.filter
def in_use(basis: Basis) -> str:
    """The unit of a basis."""
    return say(UNITS[basis])


@register.filter
def for_use(basis: Basis) -> str:
    """The amount of use that costs are said for."""
    return say(PER[basis][1])


@register.filter
def age(found: Replacement | None) -> str:
    """The age that costs least, two figures of it, or why there is none."""
    if found is None:
        return say("comes new whenever it is reached")
    return rounded(found.age) if found.age else say(WHY[found.never or "hardly any last"])


@register.filter
def short(found: Replacement | None) -> str:
    """The same where a column has no room for why: that stands under the table."""
    if found is None:
        return say("whenever reached")
    return rounded(found.age) if found.age else say("never")


@register.filter
def rounded(amount: float) -> str:
    """An age to two figures: the lives behind it bear no more.

    >>> rounded(4313.2), rounded(27.8), rounded(112.0)
    ('4,300', '28', '110')
    """
    step = 10 ** max(0, math.floor(math.log10(amount)) - 1) if amount >= 1 else 1
    return say_figure(round(amount / step) * step, 0)


@register.filter
def of_life(share: float | None) -> str:
    """A share of the planned life: per cent below twice of it, else so many times."""
    if share is None:
        return ""
    return f"{round(100 * share)} %" if share < 2 else say("{count} times", count=say_figure(share, 1))


@register.simple_tag(takes_context=True)
def per_use(context: dict[str, Any], rate: float, basis: Basis) -> str:
    """A cost per unit of use, for as much use as its basis is said for."""
    currency = context["site"]["workshop"].currency
    return money(Decimal(str(round(rate * PER[basis][0], 2))), currency, 2)


@register.filter
def between(one: ReplacementAge) -> str:
    """The age with the engine open, for the shortest and the longest life that is habit."""
    if one.while_open is None or one.while_open.age is None:
        return ""
    low, high = one.band(one.while_open.age)
    return say("{low} to {high}", low=rounded(low), high=rounded(high))


@register.simple_tag(takes_context=True)
def in_coin(context: dict[str, Any], amount: Decimal) -> str:
    """A sum for a sentence; no smaller coin than the figure bears."""
    return round_money(amount, context["site"]["workshop"].currency)
