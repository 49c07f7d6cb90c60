"""A build of the shipped catalogue whose parts are ordered. All invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache
from typing import Any
from uuid import uuid4

from quotes.actions.bench.orders import Asked, send_order
from quotes.actions.bench.receipts import PiecesTold, tell_of_pieces
from quotes.calc.bench.parts.pieces import EventKind
from quotes.calc.compare import compare
from quotes.calc.sheet.values import Comparison
from quotes.models import Acceptance, Customer, Measured, OrderEvent, OrderLine, PurchaseOrder, Workshop
from quotes.queries.bench.parts.wanted import BuildParts, build_parts
from tests.books.cast import vat_shop
from tests.calc.asked import tired_four
from tests.calc.small import SHOP
from tests.cast import builder, desk, shipped
from tests.quotes import cast
from tests.quotes.cast import NOW, ON
from tests.written_again import written_again

LATER = NOW + timedelta(days=7)
NEXT_WEEK = date(2026, 12, 2)


@lru_cache
def real_comparison() -> Comparison:
    """The 600 inline four that came at 4,000 sprint miles, worked out from the shipped catalogue."""
    vat = replace(next(iter(SHOP.tax_codes.values())), code="standard")
    taxability = dict.fromkeys(SHOP.taxability, "standard")
    shop = replace(SHOP, currency="EUR", tax_codes={"standard": vat}, taxability=taxability)
    return compare(tired_four(), shipped("four600"), shop)


@written_again
def real_build(
    number: str = "H4-20417", *, tier: str = "refresh", extras: tuple[str, ...] = ()
) -> Acceptance:
    """A yes to an option of the real comparison; its engine is a 600 inline four."""
    if not Workshop.objects.exists():
        vat_shop()
    owner = Customer.objects.filter(name="Marel Otten").first() or cast.customer()
    quote = cast.draft(cast.engine(owner, number))
    revision = cast.issued(quote, comparison=real_comparison(), papers=False)
    return cast.accepted(revision, tier=tier, extras=extras, papers=False)


def parts(of: Acceptance, on: date = ON) -> BuildParts:
    found = build_parts(Acceptance.objects.get(pk=of.pk), on)
    assert found is not None
    return found


def asked_for(of: Acceptance, *components: str, size: str = "") -> list[Asked]:
    """What is ticked: these components, or all that one supplier sells of what can be ordered."""
    needs = [need for need in parts(of).needs if need.orderable or need.pick.component in components]
    if not components:
        first = next(need.offer for need in needs if need.offer)
        needs = [need for need in needs if need.offer and need.offer.supplier == first.supplier]
    else:
        needs = [need for need in needs if need.pick.component in components]
    return [Asked(of.pk, need.pick.key, need.pick.component, size) for need in needs]


@written_again
def ordered(of: Acceptance, *components: str, **options: Any) -> PurchaseOrder:
    return send_order(asked=asked_for(of, *components), by=desk(), now=options.pop("now", NOW), **options)


def told(line: OrderLine, kind: EventKind, quantity: int, **change: Any) -> OrderEvent:
    """An event a week later; back-orders are promised for New Year's week."""
    facts: dict[str, Any] = {"on": NEXT_WEEK, "note": "As the slip says"}
    if kind == "back_ordered":
        facts["promised_on"] = date(2027, 1, 8)
    key = change.pop("key", None) or uuid4()
    event = PiecesTold(kind, Decimal(quantity), **(facts | change))
    return tell_of_pieces(line=line, told=event, key=key, by=builder(), now=LATER)


def reading(job: Any, component: str, when: str = "stripped") -> Measured:
    """A reading of a component that stands."""
    row = Measured(
        job=job,
        component=component,
        name=component,
        entered="0.05",
        entered_unit="mm",
        value=Decimal("0.05"),
        unit="mm",
        when=when,
        verdict="no_limit",
        measured_at=NOW,
        by=builder(),
    )
    row.save()
    return row
