"""Writing a demo workshop through the same actions that people use, so that nothing in it is made up."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any
from uuid import NAMESPACE_URL, uuid5

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.accepting import accept
from quotes.actions.answers import ask, decline
from quotes.actions.books.settings import save_books_settings
from quotes.actions.calls import Call, keep_call
from quotes.actions.customers import CustomerDetails, create_customer
from quotes.actions.demo.enquiries import write_demo_enquiry
from quotes.actions.demo.year import write_year
from quotes.actions.drafts import save_draft
from quotes.actions.engines import create_engine
from quotes.actions.issuing import issue
from quotes.actions.people import give_role
from quotes.actions.refused import Refused
from quotes.actions.settings import save_settings
from quotes.calc.demo.workshop import Demo, DemoCustomer, DemoQuote, DemoStep, Style
from quotes.calc.demo.year import Year
from quotes.calc.workshop_settings import Settings
from quotes.models import Customer, Engine, Quote, Workshop
from quotes.queries.books.chart import books_settings
from quotes.queries.engines import engine_asked
from quotes.queries.settings import settings_now
from quotes.queries.sheets import request_of


class OtherWorkshop(Refused):
    """A workshop of one's own, or the other demo, is in this database already."""


def refuse_other_workshop(*, style: Style) -> None:
    """OtherWorkshop where loading the demo would mix it with something else."""
    workshop = Workshop.objects.first()
    if workshop and workshop.version and workshop.demo_style != style:
        held = (
            f"the {workshop.demo_style} demo" if workshop.demo_style else f"a workshop of its own, {workshop}"
        )
        raise OtherWorkshop(f"This database holds {held} already. Load the {style} demo into an empty one.")


def write_demo(
    *,
    demo: Demo,
    style: Style,
    password: str,
    now: datetime,
    year: Year | None = None,
    said: Callable[[int, int], None] = lambda done, of: None,
) -> None:
    """Write what is not there yet; what is there already, and may have been changed, stays as it is.

    A year of trading comes before the quotes of the day, so that numbers follow their days; `said` hears how
    far it has come.
    """
    on = timezone.localdate(now)
    write_settings(demo=demo, style=style, password=password, now=now)
    if year is not None:
        write_year(year=year, now=now, said=said)
    desk = User.objects.get(username=demo.people[0].sign_in)
    for customer in demo.customers:
        _customer(customer, on, now)
    for quote in demo.quotes:
        _quote(quote, style, desk, now)
    for enquiry in demo.enquiries:
        write_demo_enquiry(given=enquiry, desk=desk, now=now)


def write_settings(*, demo: Demo, style: Style, password: str, now: datetime) -> None:
    """The demo's workshop with its books and its people, and nothing traded. OtherWorkshop."""
    refuse_other_workshop(style=style)
    _workshop(demo, style, now)
    for person in demo.people:
        _person(person.sign_in, person.first_name, person.last_name, person.role, password)
    _books(demo, User.objects.get(username="owner"), now)


def write_sample(*, demo: Demo, style: Style, by: User, now: datetime) -> None:
    """The demo's workshop, customers, quotes and calls in one person's name: nobody is given a sign-in."""
    on = timezone.localdate(now)
    _workshop(demo, style, now)
    _books(demo, by, now)
    for customer in demo.customers:
        _customer(customer, on, now)
    for quote in demo.quotes:
        _quote(quote, style, by, now)
    for enquiry in demo.enquiries:
        write_demo_enquiry(given=enquiry, desk=by, now=now)


def _workshop(demo: Demo, style: Style, now: datetime) -> None:
    if Workshop.objects.filter(version__gt=0).exists():
        return
    standing = settings_now()
    fields = {name: _typed(standing.fields[name], value) for name, value in demo.workshop.items()}
    year = timezone.localdate(now).year
    settings = Settings(
        fields={**standing.fields, **fields, "terms": _terms()},
        tax_codes=tuple(code.value() for code in demo.tax_codes),
        taxability=demo.taxability(),
        labour_rates=standing.labour_rates,
        markup_bands=standing.markup_bands,
        classes=tuple(rule.value() for rule in demo.classes),
        closed_days=(demo.closed.value(year), demo.closed.value(year + 1)),
    )
    save_settings(settings=settings, expected_version=0, by=None, now=now, demo_style=style)


def _books(demo: Demo, by: User, now: datetime) -> None:
    standing = books_settings()
    if standing.version:
        return
    fields = {name: _typed(getattr(standing, name), value) for name, value in demo.books.items()}
    save_books_settings(fields=fields, expected_version=0, by=by, now=now)


def _typed(default: Any, given: Any) -> Any:
    return Decimal(given) if isinstance(default, Decimal) else given


def _terms() -> str:
    from quotes.calc.defaults import TERMS

    return "\n\n".join(map(say, TERMS))


def _person(sign_in: str, first_name: str, last_name: str, role: Any, password: str) -> None:
    user, made = User.objects.get_or_create(
        username=sign_in, defaults={"first_name": first_name, "last_name": last_name}
    )
    if made or not user.check_password(password):
        user.set_password(password)
        user.save()
    give_role(user=user, role=role)


@transaction.atomic
def _customer(given: DemoCustomer, on: date, now: datetime) -> None:
    details = CustomerDetails(**{name: getattr(given, name) for name in CustomerDetails.__slots__})
    customer = Customer.objects.filter(name=given.name).first() or create_customer(details=details, now=now)
    for engine in given.engines:
        if not Engine.objects.filter(customer=customer, number=engine.number).exists():
            create_engine(customer=customer, number=engine.number, asked=engine.asked(on), note=engine.note)


@transaction.atomic
def _quote(given: DemoQuote, style: Style, desk: User, now: datetime) -> None:
    """One quote with everything that happened to it; one that is there already is left alone."""
    card_key = uuid5(NAMESPACE_URL, f"demo:{style}:{given.key}")
    if Quote.objects.filter(card_key=card_key).exists():
        return
    engine = Engine.objects.with_history().get(number=given.engine)
    began = now - timedelta(days=max((step.days_ago for step in given.steps), default=1))
    request = given.request(engine_asked(engine), timezone.localdate(began))
    call = Call(
        details=CustomerDetails(engine.customer.name),
        number=engine.number,
        customer=engine.customer,
        engine=engine,
    )
    quote = keep_call(call=call, request=request, card_key=card_key, by=desk, now=began)
    for step in given.steps:
        _step(quote, given, step, desk, now - timedelta(days=step.days_ago))


def _step(quote: Quote, given: DemoQuote, step: DemoStep, desk: User, at: datetime) -> None:
    quote = Quote.objects.joined().get(pk=quote.pk)
    if step.act == "issue":
        issue(quote=quote, by=desk, now=at, class_tick=given.class_tick, papers=False)
        return
    if step.act == "change":
        asked = {"planned": step.planned or given.planned, "target": step.target or given.target}
        request = request_of(quote).model_copy(update=asked)
        save_draft(quote=quote, request=request, expected_version=quote.version, by=desk, now=at)
        return
    assert quote.latest is not None
    if step.act == "ask":
        ask(revision=quote.latest, text=step.text, name=step.name, now=at)
    elif step.act == "decline":
        decline(revision=quote.latest, text=step.text, name=step.name, now=at)
    else:
        accept(
            revision=quote.latest,
            tier=step.tier,
            extras=(),
            name=step.name,
            right=step.right,
            telephone=quote.customer.telephone,
            limit_sum=step.limit_sum,
            agreed_terms=True,
            rider_safety_read=True,
            papers=False,
            now=at,
        )
