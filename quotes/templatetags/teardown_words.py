"""Words and figures of the teardown sheet."""

from __future__ import annotations

from decimal import Decimal

from django import template
from django.utils.formats import number_format

from catalogue.calc.engine import Finding
from catalogue.calc.said import say, to_say
from quotes.calc.bench.teardown.verdicts import Bounds

register = template.Library()
IN_WORDS = {"percent": "%", "ratio": to_say("of new"), "degrees": to_say("degrees")}
UNITS_OF_OWN = ("mm", "thou", "in", "µm", "%", "bar", "psi", "N", "lbf", "degrees")


@register.filter
def plain(value: Decimal | None) -> str:
    """A figure without needless digits, or nothing."""
    return "" if value is None else f"{value.normalize():f}"


@register.filter
def shown(value: Decimal | None) -> str:
    """The same as the reader writes it, for the eye alone."""
    return "" if value is None else number_format(value.normalize())


@register.filter
def unit_words(unit: str) -> str:
    """A unit as it is printed."""
    return say(IN_WORDS[unit]) if unit in IN_WORDS else unit


@register.simple_tag
def units_of_own() -> tuple[str, ...]:
    """What a quantity that the catalogue does not know may be read in."""
    return UNITS_OF_OWN


@register.filter
def standard(bounds: Bounds) -> str:
    """From low to high, or one of the two."""
    low, high = shown(bounds.standard_low), shown(bounds.standard_high)
    return say("{low} to {high}", low=low, high=high) if low and high else low or high


@register.filter
def finding_name(code: str, groups: list[tuple[str, list[Finding]]]) -> str:
    """The name of a finding of the catalogue, or its code where it is there no more."""
    return next((one.name for _, findings in groups for one in findings if one.code == code), code)
