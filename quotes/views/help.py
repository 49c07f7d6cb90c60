"""What every figure means, on one page."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path

from catalogue.calc.said import say
from quotes.calc.help.registry import AREAS
from quotes.calc.help.trade import TRADE_WORDS


def help_page(request: HttpRequest) -> HttpResponse:
    """Every help sentence by area, and the words of the trade."""
    areas = [(say(area), [(key, each.said()) for key, each in helps.items()]) for area, helps in AREAS]
    words = [word.said() for word in TRADE_WORDS]
    return render(request, "quotes/help.html", {"areas": areas, "words": words})


urlpatterns = [path("help/", help_page, name="help")]
