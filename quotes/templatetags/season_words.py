"""The season of an option as a table for the worksheet."""

from __future__ import annotations

from django import template

from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.season import SeasonTable, season_table

register = template.Library()


@register.filter
def season_of(option: Option, comparison: Comparison) -> SeasonTable | None:
    """None where it is run through."""
    return season_table(option, comparison)
