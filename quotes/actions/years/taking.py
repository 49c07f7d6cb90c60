"""Takes the patterns: a quote of each kind is written for some engine types, read, and taken back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from itertools import chain

from django.contrib.auth.models import User
from django.db import models, transaction
from django.utils import timezone

from catalogue.calc.search_key import search_key
from catalogue.queries import engine_catalogue, engine_type_choices
from quotes.actions.customers import CustomerDetails, create_customer
from quotes.actions.engines import create_engine
from quotes.actions.years.copies import Pattern
from quotes.actions.years.pattern_rows import numbers_in, rows_of
from quotes.actions.years.patterns import QuoteCourse, written
from quotes.calc.ask.faults import faults
from quotes.calc.ask.request import EngineAsked, Planned, Request, Segment
from quotes.calc.life.units import UNITS_OF_BASIS, season
from quotes.calc.record.series import NUMBER
from quotes.calc.years.names import Person
from quotes.calc.years.plan import COURSES, Kind
from quotes.calc.years.shrunk import shrunk
from quotes.models import Customer, Engine, Workshop
from quotes.queries.comparison import comparison_for
from quotes.queries.workshop import shop_rules

CUTS = ((6, 4), (7, 5), (4, 5))
"""Lines of the first two options, by engine type: ten a quote, as a million lines of a hundred thousand."""
STANDS_FOR = Person("Pattern Customerone", "+00 555 9990001", "patternone@mail.example")
NUMBER_STANDS_FOR = "XX990-99Z"
TERMS = "Invented years of trading: nothing here was promised to anybody."


@dataclass(frozen=True, slots=True)
class Numbered:
    """A number in a pattern: its series, and how many days after the call it was given out."""

    marker: str
    letter: str
    yearly: bool
    day: int


@dataclass(frozen=True, slots=True)
class CopiedQuote:
    """A quote of one kind, to be copied."""

    pattern: Pattern
    numbers: tuple[Numbered, ...]


@dataclass(frozen=True, slots=True)
class Patterns:
    """By engine type: a customer with an engine, and a quote of each kind."""

    owners: Mapping[str, Pattern]
    quotes: Mapping[tuple[str, Kind], CopiedQuote]

    @property
    def types(self) -> list[str]:
        return list(self.owners)


def patterns(by: User, at: datetime) -> Patterns:
    """Written as asked for at that moment, read, and taken back: nothing stays, no number is used."""
    with transaction.atomic():
        # Terms stand on every sheet: short ones, so that sheets are about what they tell.
        Workshop.objects.update(terms=TERMS)
        owners: dict[str, Pattern] = {}
        quotes: dict[tuple[str, Kind], CopiedQuote] = {}
        for cut, request in zip(CUTS, _requests(at), strict=False):
            code = request.engine.type
            owners[code], found = _of_type(request, cut, by, at)
            quotes |= {(code, kind): taken for kind, taken in found.items()}
        transaction.set_rollback(True)
    return Patterns(owners, quotes)


def owner_texts(one: Person, number: str) -> dict[str, str]:
    """What stands in the places of a customer and an engine."""
    return {
        "name": one.name,
        "telephone": one.telephone,
        "email": one.email,
        "name folded": search_key(one.name),
        "telephone folded": search_key(one.telephone),
        "email folded": search_key(one.email),
        "engine": number,
        "engine folded": search_key(number),
        "engine joined": search_key(number.replace("-", "")),
    }


def number_texts(marker: str, number: str) -> dict[str, str]:
    """A number as it is printed, and as searches compare it."""
    return {
        marker: number,
        f"{marker} folded": search_key(number),
        f"{marker} joined": search_key(number.replace("-", "")),
    }


def _requests(at: datetime) -> Iterator[Request]:
    """For each engine type one that can be worked out, with two seasons behind it."""
    on = timezone.localdate(at)
    for code, _ in engine_type_choices():
        catalogue = engine_catalogue(code)
        for duty in catalogue.duties.values():
            amount = Decimal(str(2 * season(duty)))
            stretch = Segment(
                amount=amount, unit=UNITS_OF_BASIS[duty.basis], duty=duty.code, end=on - timedelta(days=30)
            )
            engine = EngineAsked(type=code, history=(stretch,))
            request = Request(on=on, engine=engine, planned=Planned(duty=duty.code))
            if not faults(request, catalogue, shop_rules(on)):
                yield request
                break


def _of_type(
    request: Request, cut: tuple[int, int], by: User, at: datetime
) -> tuple[Pattern, dict[Kind, CopiedQuote]]:
    comparison = shrunk(comparison_for(request), cut, shop_rules(request.on).tax_codes)
    found = {}
    for kind in COURSES:
        engine = _engine(request, at)
        quote = written(kind, QuoteCourse(engine, request, comparison, by, at))
        found[kind] = _taken(rows_of(quote), engine, at)
    engine = _engine(request, at)
    rows = [
        *Customer.objects.filter(pk=engine.customer_id),
        *Engine.objects.filter(pk=engine.pk),
        *engine.segments.all(),
    ]
    return Pattern(rows, _names(), []), found


def _engine(request: Request, at: datetime) -> Engine:
    details = CustomerDetails(STANDS_FOR.name, telephone=STANDS_FOR.telephone, email=STANDS_FOR.email)
    customer = create_customer(details=details, now=at)
    return create_engine(customer=customer, number=NUMBER_STANDS_FOR, asked=request.engine)


def _names() -> dict[str, str]:
    """Marker to the name of its place."""
    return {marker: name for name, marker in owner_texts(STANDS_FOR, NUMBER_STANDS_FOR).items()}


def _taken(rows: list[models.Model], engine: Engine, at: datetime) -> CopiedQuote:
    numbers = tuple(_numbered(number, given, at) for number, given in numbers_in(rows))
    names = dict(
        chain.from_iterable(
            ((marker, name) for name, marker in number_texts(one.marker, one.marker).items())
            for one in numbers
        )
    )
    return CopiedQuote(Pattern(rows, _names() | names, [engine.customer, engine]), numbers)


def _numbered(number: str, given: datetime, at: datetime) -> Numbered:
    read = NUMBER.fullmatch(number)
    assert read is not None
    return Numbered(number, read["kind"], bool(read["year"]), (given - at).days)
