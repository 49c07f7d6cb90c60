"""A question mark that says what a figure means: `{% help "net" %}`, or several below a table."""

from __future__ import annotations

from typing import Any

from django import template

from quotes.calc.help.registry import helped

register = template.Library()


@register.inclusion_tag("quotes/help/mark.html")
def help(*keys: str) -> dict[str, Any]:
    """One sentence stands beside its figure; several are listed, each under the name of its figure."""
    return {"helps": helped(*keys)}
