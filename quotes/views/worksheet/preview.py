"""The worked sheet of a card that is not kept yet: to look at, with nothing to press."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from quotes.queries.rights import may
from quotes.views.card.answers import Worked
from quotes.views.card.page import render_card
from quotes.views.worksheet.sheet import component_names, worked_sheet


def preview(request: HttpRequest, worked: Worked, tier: str) -> HttpResponse:
    """One option's lines, work and what is left, as they would be kept; with faults, the card again."""
    asked, comparison = worked.answer.request, worked.comparison
    if asked is None or comparison is None or tier not in {option.tier for option in comparison.options}:
        return render_card(request, worked, None)
    told = {
        "quote": None,
        "tier": tier,
        "comparison": comparison,
        "worked": worked_sheet(comparison, asked, tier, component_names(asked.engine.type)),
        "others": [option for option in comparison.options if option.tier != tier],
        "sees_margin": may(request.user, "margin"),
    }
    return render(request, "quotes/worksheet.html", told)
