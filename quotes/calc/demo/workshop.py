"""A demo workshop as its file describes it. Days are counted back from the day it is loaded."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any, Literal

from pydantic import Field

from quotes.calc.ask.request import (
    Checks,
    Code,
    Delivered,
    EngineAsked,
    Planned,
    Renewal,
    Request,
    Segment,
    Text,
    Unit,
    Value,
)
from quotes.calc.shop import ClassRule, LineKind, TaxCode, TaxComponent
from quotes.calc.workshop_settings import Closed

Style = Literal["sales-tax", "value-added-tax"]
STYLES: tuple[Style, ...] = ("sales-tax", "value-added-tax")


class DemoTaxCode(Value):
    code: str
    category: str
    reason: str = ""
    layers: dict[str, Decimal] = Field(default_factory=dict)
    put_on: tuple[LineKind, ...] = ()

    def value(self) -> TaxCode:
        layers = tuple(TaxComponent(name, rate) for name, rate in self.layers.items())
        return TaxCode(self.code, self.category, layers, self.reason)


class DemoClass(Value):
    code: Code
    name: str
    allows: frozenset[str]

    def value(self) -> ClassRule:
        return ClassRule(self.code, self.name, self.allows)


class DemoClosed(Value):
    """The same days each year, by month and day."""

    first: str = Field(alias="from")
    last: str = Field(alias="to")
    note: str

    def value(self, year: int) -> Closed:
        first, last = (date.fromisoformat(f"{year}-{day}") for day in (self.first, self.last))
        return Closed(first, last, self.note)


class DemoCatalogue(Value):
    """In which currency the shipped catalogue is loaded, and how much of it one dollar is."""

    currency: str
    rate: Decimal | None = None


class DemoPerson(Value):
    sign_in: str
    first_name: str
    last_name: str
    role: Literal["desk", "builder", "books", "owner"]


class DemoSegment(Value):
    amount: Decimal
    unit: Unit
    duty: Code
    tier: Code = "refresh"
    began_days_ago: int
    ended_days_ago: int

    def value(self, on: date) -> Segment:
        return Segment(
            amount=self.amount,
            unit=self.unit,
            duty=self.duty,
            tier=self.tier,
            start=on - timedelta(days=self.began_days_ago),
            end=on - timedelta(days=self.ended_days_ago),
        )


class DemoRenewal(Value):
    at: Decimal
    unit: Unit
    days_ago: int

    def value(self, on: date) -> Renewal:
        return Renewal(at=self.at, unit=self.unit, on=on - timedelta(days=self.days_ago))


class DemoEngine(Value):
    number: str
    type: Code
    delivered: Delivered = "loose"
    fitted: Code | None = None
    history: tuple[DemoSegment, ...] | None = None
    renewed: dict[Code, DemoRenewal] = Field(default_factory=dict)
    note: str = ""

    def asked(self, on: date) -> EngineAsked:
        """The engine on the day that the demo is loaded."""
        history = None if self.history is None else tuple(segment.value(on) for segment in self.history)
        return EngineAsked(
            type=self.type,
            delivered=self.delivered,
            fitted=self.fitted,
            history=history,
            renewed={component: renewal.value(on) for component, renewal in self.renewed.items()},
        )


class DemoCustomer(Value):
    name: str
    address: str = ""
    telephone: str = ""
    email: str = ""
    tax_registration: str = ""
    country: str = ""
    language: str = ""
    engines: tuple[DemoEngine, ...]


class DemoStep(Value):
    """One thing that happened to a quote. Which fields count depends on `act`."""

    act: Literal["issue", "change", "accept", "ask", "decline"]
    days_ago: int
    name: str = ""
    text: Text = ""
    tier: Code = ""
    right: str = ""
    limit_sum: Decimal = Decimal(0)
    planned: Planned | None = None
    target: Decimal | None = None


class DemoQuote(Value):
    """`key` tells it from the others, so that loading the demo twice makes it once."""

    key: Code
    engine: str
    planned: Planned
    target: Decimal | None = None
    checks: Checks = "each_meeting"
    class_code: Code | None = Field(default=None, alias="class")
    class_tick: bool = False
    tiers: tuple[Code, ...] = ("refresh", "mild", "full")
    steps: tuple[DemoStep, ...]

    def request(self, engine: EngineAsked, on: date) -> Request:
        return Request(
            on=on,
            engine=engine,
            planned=self.planned,
            target=self.target,
            checks=self.checks,
            class_code=self.class_code,
            tiers=self.tiers,
        )


class DemoBooking(Value):
    """A week on the bench: the first with room, so many weeks after the call."""

    tier: Code
    weeks_ahead: int
    delivered: Delivered = "loose"
    deposit: Decimal
    agreed_by: str
    limit_sum: Decimal = Decimal(0)


class DemoEnquiry(Value):
    """A call. `note` tells it from the others, so that loading the demo twice takes it down once."""

    customer: str
    engine: str | None = None
    type: Code
    planned: Planned
    days_ago: int
    needed_in_days: int | None = None
    budget: Decimal | None = None
    note: str
    book: DemoBooking | None = None


class Demo(Value):
    """A whole demo workshop."""

    workshop: dict[str, Any]
    tax_codes: tuple[DemoTaxCode, ...]
    classes: tuple[DemoClass, ...]
    closed: DemoClosed
    catalogue: DemoCatalogue
    books: dict[str, Any] = Field(default_factory=dict)
    """Settings of the books, by name."""
    people: tuple[DemoPerson, ...]
    customers: tuple[DemoCustomer, ...]
    quotes: tuple[DemoQuote, ...]
    enquiries: tuple[DemoEnquiry, ...] = ()

    def taxability(self) -> dict[LineKind, str]:
        return {kind: code.code for code in self.tax_codes for kind in code.put_on}
