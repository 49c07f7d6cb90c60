"""The five sentences that stand wherever a chance does."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import template

from quotes.queries.estimates import honesty_now

register = template.Library()


@register.inclusion_tag("quotes/estimates.html")
def estimates(sentences: Sequence[str] = ()) -> dict[str, Any]:
    """Those of one comparison, or without it those that hold for every chance."""
    return {"sentences": sentences or honesty_now()}
