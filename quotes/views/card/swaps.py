"""The parts of the card that are swapped while it is filled in: who is known, one row more, the type's."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say
from quotes.forms.card import Card
from quotes.forms.card_rows import SeenRow
from quotes.forms.filling import Data, engine_data
from quotes.models import Customer, Engine
from quotes.queries.engines import engine_asked
from quotes.views.card.answers import read_card

SHORTEST = 2
"""Fewer letters than this find everybody."""
MOST_ENGINES, MOST_CUSTOMERS = 7, 4
"""More than this can't be taken in while somebody talks; another letter narrows it down."""
REPLACED = ("history-", "renewed-")
"""Rows that come from the engine's own record when an engine is picked."""


@dataclass(frozen=True, slots=True)
class Match:
    """One who may be calling: a customer with one of their engines, or with another one."""

    value: str
    words: str


def find_known(card: Card) -> list[Match]:
    """Customers and engines that the typed name, telephone number or engine number finds."""
    typed = card.who.typed("name")
    if len(typed) < SHORTEST or "\x00" in typed:
        return []
    types = dict(card.offered.engine_types)
    engines = Engine.objects.select_related("customer").found_by(typed)[:MOST_ENGINES]
    customers = Customer.objects.found_by(typed)[:MOST_CUSTOMERS]
    return [
        *(Match(f"{each.customer_id}-{each.pk}", _words(each, types)) for each in engines),
        *(Match(f"{each.pk}-", say("{name}, another engine", name=each.name)) for each in customers),
    ]


def _words(engine: Engine, types: Mapping[str, str]) -> str:
    name = types.get(engine.type_code, engine.type_code)
    return f"{engine.customer.name}, {name}, {engine.number or say('no number')}"


def fill_picked(data: Mapping[str, Any], card: Card, on: date) -> Card:
    """The card with the picked customer's and engine's own records written in."""
    filled: Data = {key: str(value) for key, value in data.items()}
    customer = Customer.objects.filter(pk=card.who.customer_id or 0).first()
    if customer is None:
        return card
    filled |= {"name": customer.name, "telephone": customer.telephone, "email": customer.email}
    found = Engine.objects.with_history().filter(pk=card.who.engine_id or 0, customer=customer).first()
    if found is not None:
        filled = {key: value for key, value in filled.items() if not key.startswith(REPLACED)}
        filled |= engine_data(engine_asked(found)) | {"number": found.number}
    return read_card(filled)


@require_POST
def known(request: HttpRequest) -> HttpResponse:
    """Who is found by what has been typed so far."""
    card = read_card(request.POST)
    shown = {"card": card, "known": find_known(card), "searched": len(card.who.typed("name")) >= SHORTEST}
    return render(request, "quotes/new_quote/known.html", shown)


@require_POST
def pick(request: HttpRequest) -> HttpResponse:
    """The engine's part of the card, from the record of the engine that was picked."""
    on = timezone.localdate()
    card = fill_picked(request.POST, read_card(request.POST), on)
    answer = render(request, "quotes/new_quote/picked.html", {"card": card})
    answer["HX-Trigger-After-Settle"] = "card-changed"
    return answer


@require_POST
def by_type(request: HttpRequest) -> HttpResponse:
    """The rows whose choices hang on the engine type, as they were typed."""
    card = read_card(request.POST)
    told = {"card": card, "only_engine": "only_engine" in request.POST}
    return render(request, "quotes/new_quote/by_type.html", told)


@require_POST
def row(request: HttpRequest) -> HttpResponse:
    """One row more, with the cursor in its first field."""
    card = read_card(request.POST)
    rows = card.all_rows.get(request.POST.get("add", ""))
    if rows is None:
        return HttpResponse(status=400)
    added = rows.add()
    next(iter(added.fields.values())).widget.attrs["autofocus"] = True
    return render(request, f"quotes/new_quote/row_{rows.name}.html", {"row": added})


@require_POST
def seen(request: HttpRequest) -> HttpResponse:
    """What is asked further of a finding or event: which one, how far over, where."""
    card = read_card(request.POST)
    asked = request.POST.get("row", "")
    found: list[SeenRow] = [each for each in card.seen if each.prefix == asked]
    if not found:
        return HttpResponse(status=400)
    return render(request, "quotes/new_quote/seen_detail.html", {"row": found[0]})


urlpatterns = [
    path("quotes/new/known/", known, name="new-quote-known"),
    path("quotes/new/pick/", pick, name="new-quote-pick"),
    path("quotes/new/by-type/", by_type, name="new-quote-by-type"),
    path("quotes/new/row/", row, name="new-quote-row"),
    path("quotes/new/seen/", seen, name="new-quote-seen"),
]
