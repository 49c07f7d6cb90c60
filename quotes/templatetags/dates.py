"""Dates of a page, as the reader's language writes them."""

from __future__ import annotations

from datetime import date

from django import template
from django.template.defaultfilters import date as by_pattern

from catalogue.calc.said import say, to_say

register = template.Library()
PATTERNS = (
    to_say("j F"),
    to_say("j F Y"),
    to_say("j F Y, H:i"),
    to_say("j M"),
    to_say("j M, H:i"),
    to_say("j M Y"),
    to_say("j M Y, H:i"),
    to_say("l j F"),
    to_say("l j M, H:i"),
)
"""The orders of day and month that pages use; a language may set a point behind the day."""


@register.filter(expects_localtime=True)
def dated(on: date | None, pattern: str) -> str:
    """A date by one of the patterns, which is that of English; nothing where there is none."""
    assert pattern in PATTERNS, pattern
    return by_pattern(on, say(pattern)) if on else ""
