"""The whole page of a card, as it was typed."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse

from quotes.models import Quote
from quotes.views.card.answers import Worked, options_context


def render_card(request: HttpRequest, worked: Worked, quote: Quote | None, **more: Any) -> HttpResponse:
    """The page of the card, with the options where they could be worked out."""
    args = [quote.pk] if quote else []
    context = options_context(worked, quote) | {
        "action": reverse("quote-card" if quote else "new-quote", args=args),
        "follow": reverse("quote-card-options" if quote else "new-quote-options", args=args),
        "key": request.POST.get("key") or uuid4().hex,
        "version": request.POST.get("version") or (quote.version if quote else ""),
        "empty_catalogue": not worked.card.offered.engine_types,
    }
    return render(request, "quotes/new_quote.html", context | more)
