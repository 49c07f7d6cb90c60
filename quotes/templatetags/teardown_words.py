"""Words and figures of the teardown sheet."""

from __future__ import annotations

from decimal import Decimal

from django import template

from catalogue.calc.engine import Finding
from quotes.calc.bench.verdicts import Bounds

register = template.Library()
IN_WORDS = {"percent": "%", "ratio": "of new"}


@register.filter
def plain(value: Decimal | None) -> str:
    """A figure without needless digits, or nothing."""
    return "" if value is None else f"{value.normalize():f}"


@register.filter
def unit_words(unit: str) -> str:
    """A unit as it is printed."""
    return IN_WORDS.get(unit, unit)


@register.filter
def standard(bounds: Bounds) -> str:
    """From low to high, or one of the two."""
    known = [plain(one) for one in (bounds.standard_low, bounds.standard_high) if one is not None]
    return " to ".join(known)


@register.filter
def finding_name(code: str, groups: list[tuple[str, list[Finding]]]) -> str:
    """The name of a finding of the catalogue, or its code where it is there no more."""
    return next((one.name for _, findings in groups for one in findings if one.code == code), code)
