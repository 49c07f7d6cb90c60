"""Figures that open to what they are made of."""

from __future__ import annotations

from urllib.parse import urlencode

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.calc.said import say

register = template.Library()


@register.simple_tag
def figure_link(
    address: str, tier: str, key: str, words: str, via: str = "", beside: str = ""
) -> SafeString | str:
    """The figure as a link to its parts: a dialogue with a script, else a page. Bare without an address.

    `beside` is the option whose sheet a figure of leaving it stands on, for the way back.
    """
    if not address:
        return words
    asked = {"option": tier, "of": key, "via": via, "beside": beside}
    asked = {name: value for name, value in asked.items() if value}
    href = f"{address}number/?{urlencode(asked)}"
    return format_html(
        '<a class="from" href="{}" hx-get="{}" hx-target="#origin" hx-swap="innerHTML" '
        'hx-sync="#origin:replace">{}<span class="hidden">: {}</span></a>',
        href,
        href,
        words,
        say("where this comes from"),
    )
