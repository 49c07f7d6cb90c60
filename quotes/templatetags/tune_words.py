"""The tune of an option as rows for the worksheet."""

from __future__ import annotations

from django import template

from quotes.calc.sheet.tune_values import ModelWidth, TuneFigures
from quotes.documents import tune_sheet

register = template.Library()


@register.filter
def figure_rows(figures: TuneFigures) -> tuple[tuple[str, str], ...]:
    return tune_sheet.figure_rows(figures)


@register.filter
def width_rows(width: ModelWidth) -> tuple[tuple[str, str, str], ...]:
    return tune_sheet.width_rows(width)
