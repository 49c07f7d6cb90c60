"""Keeping what was said on the telephone: customer, engine and quote or enquiry, all of it or nothing."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction

from quotes.actions.bench.jobs import tie_waiting
from quotes.actions.customers import CustomerDetails, create_customer
from quotes.actions.drafts import keep_quote, stored
from quotes.actions.engines import create_engine, update_engine
from quotes.actions.enquiry import EnquiryDetails, write_down
from quotes.calc.ask.request import Request
from quotes.calc.sheet.values import Comparison
from quotes.models import Customer, Engine, Enquiry, Quote


@dataclass(frozen=True, slots=True)
class Call:
    """Who called about which engine; a customer or an engine that is known already is named by its row."""

    details: CustomerDetails
    number: str
    customer: Customer | None = None
    engine: Engine | None = None


def keep_call(*, call: Call, request: Request, card_key: UUID, by: User, now: datetime) -> Quote:
    """Keep a call as a draft. The same card once more gives the quote that it gave the first time.

    ValidationError by field where customer or engine can't be kept; StaleDraft where the engine's record
    was changed meanwhile. Nothing is kept then.
    """
    if found := Quote.objects.filter(card_key=card_key).first():
        return found
    try:
        with transaction.atomic():
            customer = call.customer or create_customer(details=call.details, now=now)
            engine = _kept_engine(call, customer, request)
            quote = keep_quote(customer=customer, engine=engine, request=request, by=by, now=now)
            if quote.card_key is None:
                quote.card_key = card_key
                quote.save(update_fields=["card_key"])
            tie_waiting(quote=quote, by=by, now=now)
            return quote
    except IntegrityError:
        # Two presses at once: the other one was first, and everything of this one has fallen back.
        if (found := Quote.objects.filter(card_key=card_key).first()) is None:
            raise
        return found


@transaction.atomic
def keep_call_as_enquiry(
    *, call: Call, request: Request, comparison: Comparison, by: User, now: datetime
) -> Enquiry:
    """Keep a call as an enquiry with what was said of it. The same call once more gives the same enquiry.

    ValidationError by field and StaleDraft as in `keep_call`.
    """
    User.objects.select_for_update().get(pk=by.pk)  # two presses of one person wait for one another
    if call.customer is None and (found := _same_call(call, request, by)):
        return found
    customer = call.customer or create_customer(details=call.details, now=now)
    engine = _kept_engine(call, customer, request)
    details = EnquiryDetails(needed_on=request.planned.first_meeting, budget=request.budget)
    return write_down(customer, engine, request, details, comparison, by, now)


def _same_call(call: Call, request: Request, by: User) -> Enquiry | None:
    """The enquiry that a first press has made for a customer who was new then."""
    calls = Enquiry.objects.open().filter(
        kept_by=by, version=1, engine__number=call.number, customer__name=call.details.name
    )
    for enquiry in calls.select_related("customer"):
        details = CustomerDetails(**{name: getattr(enquiry.customer, name) for name in asdict(call.details)})
        if details == call.details and enquiry.request == stored(request):
            return enquiry
    return None


def _kept_engine(call: Call, customer: Customer, request: Request) -> Engine:
    if call.engine is None:
        return create_engine(customer=customer, number=call.number, asked=request.engine)
    return update_engine(
        engine=call.engine, number=call.number, asked=request.engine, expected_version=call.engine.version
    )
