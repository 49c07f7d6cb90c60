"""Taking an engine in: find it among what is expected or write it down anew, then the intake card."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from uuid import uuid4

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.said import say
from catalogue.calc.typed_figure import typed_number
from catalogue.queries import engine_catalogue, engine_type_choices
from quotes.actions.bench.intake import NewEngine, RunsBackwards, take_in
from quotes.actions.customers import CustomerDetails
from quotes.actions.refused import Refused
from quotes.forms.bench.intake import EngineForm, IntakeForm, WhoForm
from quotes.models import Booking, Customer, Engine, Job, Quote
from quotes.queries.bench.intake import accepted_not_here, engines_found, expected, jobs_of_type
from quotes.queries.books.payers import payers_offered
from quotes.views.every_request.person import signed_in


@dataclass(frozen=True, slots=True)
class AtTheDoor:
    """What the address says of the engine at the door."""

    engine: Engine | None = None
    customer: Customer | None = None
    booking: Booking | None = None
    quote: Quote | None = None
    type_code: str = ""
    new: bool = False

    @property
    def is_anything(self) -> bool:
        return bool(self.engine or self.customer or self.new)

    @property
    def split(self) -> str:
        """How the cases part; unknown before the type is."""
        code = self.engine.type_code if self.engine else self.type_code
        try:
            return engine_catalogue(code).engine_type.case_split if code else ""
        except LookupError:
            return ""


def new(request: HttpRequest) -> HttpResponse:
    """Which engine stands at the door; once that is known, its card."""
    brought = _brought(request.GET)
    if not brought.is_anything:
        return _start(request)
    if standing := _here_already(brought):
        return redirect("job", standing.pk)
    data = request.POST if request.method == "POST" else None
    card = IntakeForm(data, initial=_first(brought), split=brought.split)
    who = None if brought.customer else WhoForm(data)
    what = None if brought.engine else EngineForm(data, initial={"type": brought.type_code})
    forms = [form for form in (card, who, what) if form is not None]
    valid = [form.is_valid() for form in forms]
    if not all(valid):
        return _card(request, brought, card, who, what)
    return _keep(request, brought, card, who, what)


def _brought(address: Mapping[str, str]) -> AtTheDoor:
    """A stranger in the address is a 404."""

    def key(name: str) -> int | None:
        return typed_number(address.get(name, ""))

    if (pk := key("booking")) is not None:
        booking = get_object_or_404(Booking.objects.standing().joined(), pk=pk)
        asked = booking.enquiry
        code = str(asked.request.get("engine", {}).get("type", ""))
        return AtTheDoor(asked.engine, asked.customer, booking, asked.quote, code)
    if (pk := key("quote")) is not None:
        quote = get_object_or_404(Quote.objects.select_related("engine", "customer"), pk=pk)
        return AtTheDoor(quote.engine, quote.customer, None, quote)
    if (pk := key("engine")) is not None:
        engine = get_object_or_404(Engine.objects.select_related("customer"), pk=pk)
        return AtTheDoor(engine, engine.customer)
    if (pk := key("customer")) is not None:
        return AtTheDoor(customer=get_object_or_404(Customer, pk=pk), new=True)
    return AtTheDoor(new="new" in address)


def _here_already(brought: AtTheDoor) -> Job | None:
    """The job of this very visit, or the one under which the engine stands in the workshop."""
    if brought.booking and (row := Job.objects.filter(booking=brought.booking).first()):
        return row
    if brought.quote and (row := Job.objects.filter(quote=brought.quote).first()):
        return row
    return Job.objects.in_the_shop().filter(engine=brought.engine).first() if brought.engine else None


def _start(request: HttpRequest) -> HttpResponse:
    typed = request.GET.get("q", "")
    context = {
        "expected": expected(),
        "accepted": accepted_not_here(),
        "typed": typed,
        "found": engines_found(typed),
        "types": dict(engine_type_choices()),
    }
    return render(request, "quotes/bench/intake_start.html", context)


def _first(brought: AtTheDoor) -> dict[str, Any]:
    """What stands in the card before anybody has typed."""
    first: dict[str, Any] = {"key": uuid4(), "service_known": "unknown"}
    if brought.customer:
        first["brought_by"] = brought.customer.name
    if brought.engine:
        first |= {"delivered": brought.engine.delivered}
    if brought.booking:
        first |= {"delivered": brought.booking.delivered, "symptoms": brought.booking.enquiry.symptoms}
    return first


def _card(
    request: HttpRequest,
    brought: AtTheDoor,
    card: IntakeForm,
    who: WhoForm | None,
    what: EngineForm | None,
    refused: str = "",
) -> HttpResponse:
    code = brought.engine.type_code if brought.engine else brought.type_code
    context = {
        "brought": brought,
        "type_name": dict(engine_type_choices()).get(code, code),
        "card": card,
        "who": who,
        "what": what,
        "payers": payers_offered() if who else (),
        "alike": jobs_of_type(code) if code else (),
        "refused": refused,
    }
    return render(request, "quotes/bench/intake.html", context)


def _keep(
    request: HttpRequest, brought: AtTheDoor, card: IntakeForm, who: WhoForm | None, what: EngineForm | None
) -> HttpResponse:
    owner: Customer | CustomerDetails | None = who.who() if who else brought.customer
    engine: Engine | NewEngine | None = what.what() if what else brought.engine
    assert owner is not None
    assert engine is not None
    try:
        row = take_in(
            customer=owner,
            engine=engine,
            given=card.given(),
            key=card.once(),
            by=signed_in(request),
            now=timezone.now(),
            booking=brought.booking,
            quote=brought.quote,
            wishes=card.wishes(),
        )
    except RunsBackwards as asks:
        card.asks_backwards = True
        card.add_error("service_amount", ValidationError(str(asks)))
        return _card(request, brought, card, who, what)
    except Refused as refused:
        return _card(request, brought, card, who, what, refused=str(refused))
    except ValidationError as wrong:
        _tell(wrong, card, who, what)
        return _card(request, brought, card, who, what)
    messages.success(request, say("{number} is taken in. Its tag: {tag}.", number=row.number, tag=row.tag))
    return redirect("job-photos", row.pk)


def _tell(wrong: ValidationError, card: IntakeForm, who: WhoForm | None, what: EngineForm | None) -> None:
    """Put each fault at its field, wherever that stands; what fits nowhere stands above the card."""
    for name, faults in wrong.message_dict.items():
        named = {"telephone": "new_telephone", "name": "new_name", "type_code": "type"}.get(name, name)
        for form in (card, who, what):
            if form is not None and named in form.fields:
                form.add_error(named, faults[0])
                break
        else:
            card.add_error(None, faults[0])


urlpatterns = [path("bench/new/", new, name="job-new")]
