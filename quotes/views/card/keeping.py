"""Keeping a card: as a new quote, or as the next state of one that is kept already."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils import timezone

from quotes.actions.calls import Call, keep_call, keep_call_as_enquiry
from quotes.actions.customers import CustomerDetails
from quotes.actions.drafts import save_draft
from quotes.actions.refused import Refused, StaleDraft
from quotes.calc.ask.request import Request
from quotes.forms.card import Card
from quotes.models import Customer, Engine, Quote
from quotes.views.card.answers import Worked, work_out
from quotes.views.card.page import render_card
from quotes.views.every_request.form_marks import card_key, version_of
from quotes.views.every_request.person import signed_in

WHERE = {"name": "name", "telephone": "telephone", "email": "email"}
"""Fields of a customer's record, by the field of the card; everything else is about the engine."""


def keep(request: HttpRequest, card: Card, quote: Quote | None) -> HttpResponse:
    """Keep the card and go to the worksheet; with a fault anywhere nothing is kept and it comes back."""
    worked = work_out(card, timezone.localdate())
    card.insist(new=quote is None)
    asked = worked.answer.request
    if asked is None or card.has_faults:
        return render_card(request, worked, quote)
    if quote is None:
        return _keep_new(request, worked, asked)
    return _keep_draft(request, worked, asked, quote)


def _keep_new(request: HttpRequest, worked: Worked, asked: Request) -> HttpResponse:
    card = worked.card
    try:
        kept = keep_call(
            call=call_of(card),
            request=asked,
            card_key=card_key(request),
            by=signed_in(request),
            now=timezone.now(),
        )
    except ValidationError as invalid:
        say_at_fields(card, invalid)
    except StaleDraft as stale:
        return render_card(request, worked, None, stale=stale)
    else:
        return redirect("quote", kept.pk)
    return render_card(request, worked, None)


def keep_as_enquiry(request: HttpRequest, card: Card) -> HttpResponse:
    """Keep the card as an enquiry, with the bands that were said; with a fault anywhere it comes back."""
    worked = work_out(card, timezone.localdate())
    card.insist(new=True)
    asked, comparison = worked.answer.request, worked.comparison
    if asked is None or comparison is None or card.has_faults:
        return render_card(request, worked, None)
    try:
        kept = keep_call_as_enquiry(
            call=call_of(card),
            request=asked,
            comparison=comparison,
            by=signed_in(request),
            now=timezone.now(),
        )
    except ValidationError as invalid:
        say_at_fields(card, invalid)
    except StaleDraft as stale:
        return render_card(request, worked, None, stale=stale)
    else:
        return redirect("enquiry", kept.pk)
    return render_card(request, worked, None)


def _keep_draft(request: HttpRequest, worked: Worked, asked: Request, quote: Quote) -> HttpResponse:
    try:
        save_draft(
            quote=quote,
            request=asked,
            expected_version=version_of(request),
            by=signed_in(request),
            now=timezone.now(),
        )
    except StaleDraft as stale:
        return render_card(request, worked, quote, stale=stale, version=stale.version)
    except Refused as refused:
        return render_card(request, worked, quote, refused=refused)
    return redirect("quote", quote.pk)


def call_of(card: Card) -> Call:
    """Who called about which engine, as the card says."""
    who = card.who
    customer = Customer.objects.filter(pk=who.customer_id or 0).first()
    engine = Engine.objects.filter(pk=who.engine_id or 0, customer=customer).first() if customer else None
    details = CustomerDetails(
        name=who.typed("name"), telephone=who.typed("telephone"), email=who.typed("email")
    )
    return Call(details=details, number=card.engine.typed("number"), customer=customer, engine=engine)


def say_at_fields(card: Card, invalid: ValidationError) -> None:
    """Put what the records refuse at the fields that they came from."""
    by_field = invalid.message_dict if hasattr(invalid, "error_dict") else {"": invalid.messages}
    for name, messages in by_field.items():
        form, field = (card.who, WHERE[name]) if name in WHERE else (card.engine, "number")
        form.say(field, messages[0])
