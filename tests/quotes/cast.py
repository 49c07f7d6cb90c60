"""The workshop, customer, engine and quote that the tests of this folder speak of. All invented."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from quotes.actions.accepting import accept
from quotes.actions.customers import CustomerDetails, create_customer
from quotes.actions.drafts import keep_quote
from quotes.actions.engines import create_engine
from quotes.actions.issuing import freeze
from quotes.calc.ask.request import EngineAsked, Planned, Request, Segment
from quotes.calc.sheet.values import Comparison
from quotes.models import (
    Acceptance,
    Customer,
    Engine,
    Quote,
    Revision,
    TaxCode,
    TaxComponent,
    Workshop,
)
from quotes.queries.sheets import request_of
from tests.cast import desk
from tests.sample_sheet import sample_comparison
from tests.written_again import written_again

NOW = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
ON = NOW.date()


@written_again
def workshop(**change: Any) -> Workshop:
    """A workshop in sales-tax style that is set up as far as issuing needs."""
    sales = TaxCode.objects.create(code="sales", category="S")
    TaxComponent.objects.create(tax_code=sales, order=0, name="State", rate_pct=Decimal("6"))
    TaxComponent.objects.create(tax_code=sales, order=1, name="County", rate_pct=Decimal("1.25"))
    exempt = TaxCode.objects.create(code="labour", category="E", reason="Repair labour stated apart")
    fields = {
        "name": "Sorrel Yard Engines",
        "address": "4 Sorrel Yard\nAnyborough",
        "telephone": "000 555 0142",
        "email": "desk@sorrelyard.example",
        "tax_on_labour": exempt,
        "tax_on_parts": sales,
        "tax_on_machine_work": sales,
        "tax_on_consumables": sales,
    }
    return Workshop.objects.create(id=Workshop.ONLY_ID, **(fields | change))


@written_again
def customer(name: str = "Marel Otten", **change: Any) -> Customer:
    details = CustomerDetails(name=name, telephone="000 555 0199", email="marel@otten.example")
    from dataclasses import replace

    return create_customer(details=replace(details, **change), now=NOW)


def asked(**change: Any) -> EngineAsked:
    """A 600 four with 4,100 sprint miles."""
    history = (
        Segment(
            amount=Decimal(4100),
            unit="mi",
            duty="sprint",
            start=date(2025, 3, 1),
            end=date(2026, 10, 10),
        ),
    )
    return EngineAsked(type="four600", history=history).model_copy(update=change)


@written_again
def engine(owner: Customer, number: str = "H4-20417") -> Engine:
    return create_engine(customer=owner, number=number, asked=asked())


def request(**change: Any) -> Request:
    """2,000 endurance miles for the 600 four."""
    planned = Planned(duty="endurance", amount=Decimal(2000), unit="mi")
    return Request(on=ON, engine=asked(), planned=planned).model_copy(update=change)


@written_again
def draft(of: Engine, *, now: datetime = NOW, **change: Any) -> Quote:
    return keep_quote(customer=of.customer, engine=of, request=request(**change), by=desk(), now=now)


@written_again
def issued(
    quote: Quote, *, now: datetime = NOW, comparison: Comparison | None = None, papers: bool = True
) -> Revision:
    """The next revision of a quote, frozen from the hand-made comparison instead of a worked one."""
    quote = Quote.objects.joined().get(pk=quote.pk)
    shown = comparison or sample_comparison()
    return freeze(quote, request_of(quote), shown, desk(), now, class_tick=False, papers=papers)


@written_again
def accepted(revision: Revision, **change: Any) -> Acceptance:
    """A yes to the mild build of a revision."""
    fields: dict[str, Any] = {
        "tier": "mild",
        "extras": (),
        "name": "Marel Otten",
        "right": "owner of the engine",
        "telephone": "000 555 0199",
        "limit_sum": Decimal(200),
        "agreed_terms": True,
        "now": NOW,
    }
    return accept(revision=revision, **(fields | change))
