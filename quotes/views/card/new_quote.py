"""The new-quote card, and the same card for a quote that is kept already."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.typed_figure import typed_number
from catalogue.views.untouched import keeps_theirs
from quotes.forms.card import Card
from quotes.forms.filling import blank_data, request_data
from quotes.models import Engine, Quote
from quotes.queries.sheets import request_of
from quotes.views.card.answers import (
    known_engine,
    offered_for,
    options_context,
    read_card,
    unworked,
    work_out,
)
from quotes.views.card.keeping import keep, keep_as_enquiry
from quotes.views.card.page import render_card
from quotes.views.card.swaps import fill_picked, find_known
from quotes.views.worksheet.preview import preview


def new_quote(request: HttpRequest) -> HttpResponse:
    """An empty card, or what is to be done with a filled one."""
    return _card_page(request, None)


def quote_card(request: HttpRequest, pk: int) -> HttpResponse:
    """The card of a quote that is kept already."""
    return _card_page(request, get_object_or_404(Quote.objects.joined(), pk=pk))


def _card_page(request: HttpRequest, quote: Quote | None) -> HttpResponse:
    on = timezone.localdate()
    if request.method != "POST":
        return _first_page(request, quote)
    card = read_card(request.POST, quote)
    if sheet := request.POST.get("sheet"):
        return preview(request, work_out(card, on), sheet)
    match request.POST.get("do"):
        case "keep":
            return keep(request, card, quote)
        case "enquiry" if quote is None:
            return keep_as_enquiry(request, card)
        case "find":
            return render_card(request, unworked(card), quote, known=find_known(card), searched=True)
    return _changed_card(request, card, quote)


def _changed_card(request: HttpRequest, card: Card, quote: Quote | None) -> HttpResponse:
    """Without a script: a row more or less, another engine picked, or only worked out again."""
    on = timezone.localdate()
    rows = card.all_rows.get(request.POST.get("add", ""))
    if rows is not None:
        rows.add()
    for each in card.all_rows.values():
        each.drop(request.POST.get("drop", ""))
    if card.who.pick_typed != card.who.typed("picked"):
        card = fill_picked(request.POST, card, on)
    return render_card(request, work_out(card, on), quote, known=find_known(card))


def _first_page(request: HttpRequest, quote: Quote | None) -> HttpResponse:
    """The card as it is kept; for a known engine with its record written in; or empty."""
    on = timezone.localdate()
    if quote is not None:
        asked = request_of(quote)
        offered = offered_for(asked.engine.type)
        card = Card(request_data(asked, offered), offered, asked, known_engine(quote.engine))
        worked = work_out(card, on)
        return render_card(request, worked, quote)
    offered = offered_for("")
    card = Card(blank_data(offered), offered)
    engine = Engine.objects.filter(pk=typed_number(request.GET.get("engine", "")) or 0).first()
    if engine is None:
        return render_card(request, unworked(card), None)
    data = blank_data(offered) | {"pick": f"{engine.customer_id}-{engine.pk}"}
    card = fill_picked(data, Card(data, offered), on)
    return render_card(request, unworked(card), None, known=find_known(card))


@require_POST
def options(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """The region with the options, and every field's fault, for a card that has just changed."""
    quote = get_object_or_404(Quote.objects.joined(), pk=pk) if pk else None
    on = timezone.localdate()
    worked = work_out(read_card(request.POST, quote), on)
    return render(request, "quotes/new_quote/follow.html", options_context(worked, quote))


urlpatterns = [
    path("quotes/new/", new_quote, name="new-quote"),
    path("quotes/new/options/", options, name="new-quote-options"),
    path("quotes/<int:pk>/card/", keeps_theirs(quote_card), name="quote-card"),
    path("quotes/<int:pk>/card/options/", options, name="quote-card-options"),
]
