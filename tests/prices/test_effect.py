"""Before a list is taken in: whose margin moves and by how much. What was issued keeps its prices."""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalogue.actions.price_list.terms import set_terms
from catalogue.models import Offer, PriceList
from quotes.calc.sheet.line_values import Line
from quotes.models import Acceptance, Quote
from quotes.queries.price_list_effect import effect_of
from tests.bench.parts_cast import ordered, real_build, real_comparison
from tests.calc.asked import tired_four
from tests.prices.cast import checked, cost_of, listed, read
from tests.quotes import cast
from tests.quotes.cast import ON

pytestmark = pytest.mark.django_db
MORE = Decimal(2)


def spring_line() -> Line:
    lines = real_comparison().option("refresh").lines
    return next(line for line in lines if line.component == "valve_spring")


def dearer_springs() -> PriceList:
    """A list on which the valve springs of the four cost two more, and so does their list price."""
    offer = Offer.objects.get(
        part__component="valve_spring", part__engine_type="four600", part__grade="stock"
    )
    list_price = Decimal(str(offer.part.list_price)) + MORE
    rows = read(listed(offer.part_id, str(cost_of(offer) + MORE), list_price=list_price))
    set_terms(supplier=offer.supplier_id, currency="", jump_percent=Decimal(900))
    return checked(rows, supplier=offer.supplier_id)


def test_an_issued_quote_keeps_its_prices_and_its_margin_falls() -> None:
    quote = cast.draft(cast.engine(cast.customer()))
    revision = cast.issued(quote, comparison=real_comparison(), papers=False)
    sheet = revision.sheet
    moved = {row.what: row for row in effect_of(dearer_springs(), ON).quotes}
    name = real_comparison().option("refresh").name
    assert moved[name].by == -MORE * spring_line().quantity
    revision.refresh_from_db()
    assert revision.sheet == sheet


def test_a_build_counts_as_far_as_its_parts_are_not_ordered() -> None:
    build = real_build()
    (moved,) = effect_of(dearer_springs(), ON).builds
    assert (moved.pk, moved.what, moved.by) == (build.pk, "1", -MORE * spring_line().quantity)
    ordered(Acceptance.objects.get(pk=build.pk), "valve_spring")
    assert effect_of(PriceList.objects.get(), ON).builds == ()


def test_a_draft_says_its_sum_before_and_after() -> None:
    cast.workshop()
    quote = cast.draft(cast.engine(cast.customer()))
    Quote.objects.filter(pk=quote.pk).update(request=tired_four(tiers=("refresh",)).model_dump(mode="json"))
    (moved,) = effect_of(dearer_springs(), ON).drafts
    assert moved.pk == quote.pk
    assert all(one.by > 0 for one in moved.sums)
