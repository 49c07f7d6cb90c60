"""A part that only a supplier lists, as a line of our own: in the margin, and ordered like any part."""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalogue.models import ListedPart
from quotes.actions.bench.orders import Asked, send_order
from quotes.actions.books.extra_work import answer_extra_work, offer_extra_work
from quotes.calc.ask.request import Edits, OwnLine, Request
from quotes.calc.compare import compare
from quotes.calc.invoice.draft import DraftLine
from quotes.models import Acceptance, OrderLine, Quote
from quotes.queries.bench.parts.drafts import drafts
from quotes.queries.bench.parts.listed import listed_offers
from quotes.queries.books.quoted_costs import quoted_takes
from quotes.queries.listed_line import listed_line
from quotes.queries.workshop import shop_rules
from tests.bench.parts_cast import parts, real_build
from tests.books.cast import vat_shop
from tests.calc.asked import tired_four
from tests.cast import desk, shipped
from tests.prices.cast import HOUSE, listed, read, taken
from tests.quotes import cast
from tests.quotes.cast import NOW, ON

pytestmark = pytest.mark.django_db


def kept() -> OwnLine:
    """Two of a listed part that costs 40, its price by the usual rule."""
    taken(read(listed("NG-77/B", "40", list_price=Decimal(90), pack=5, lead_days=3, unit="set")))
    told = listed_line(str(ListedPart.objects.get().pk), ON)
    return OwnLine(quantity=Decimal(2), **{name: str(value) for name, value in told.items()})


def built(line: OwnLine) -> Acceptance:
    vat_shop()
    edits = {"refresh": Edits(own_lines=(OwnLine(description="Crate", quantity=1, unit_price=9), line))}
    request: Request = tired_four(tiers=("refresh",), edits=edits)
    quote = cast.draft(cast.engine(cast.customer()))
    Quote.objects.filter(pk=quote.pk).update(request=request.model_dump(mode="json", by_alias=True))
    comparison = compare(request, shipped("four600"), shop_rules(ON))
    return cast.accepted(
        cast.issued(quote, comparison=comparison, papers=False), tier="refresh", papers=False
    )


def test_it_is_filled_in_at_the_usual_price_and_counts_in_the_margin() -> None:
    line = kept()
    assert (line.number, line.supplier, line.unit, line.cost) == ("NG-77/B", HOUSE, "set", Decimal(40))
    assert 40 < line.unit_price <= 90
    comparison = compare(
        tired_four(tiers=("refresh",), edits={"refresh": Edits(own_lines=(line,))}),
        shipped("four600"),
        shop_rules(ON),
    )
    shown = comparison.option("refresh").lines[-1]
    assert (shown.net, shown.cost) == (2 * line.unit_price, Decimal(80))


def test_it_is_ordered_of_its_supplier_in_packs_at_what_it_costs_now() -> None:
    build = built(kept())
    taken(read(listed("NG-77/B", "41", pack=5, lead_days=3)), "later.csv")
    need = next(need for need in parts(build).needs if need.pick.component == "own-2")
    assert (need.word(), need.offer.lead.slow_days if need.offer else None) == ("to order", 3)
    row = next(row for one in drafts(ON) for row in one.rows if row.article.part_number == "NG-77/B")
    assert (row.cost, row.article.quantity) == (Decimal(41), Decimal(5))
    asked = Asked(build.pk, need.pick.key, need.pick.component)
    order = send_order(asked=[asked], by=desk(), now=NOW)
    lines = OrderLine.objects.filter(order=order).values_list("part_number", "quantity", "quoted_unit_cost")
    assert order.supplier == HOUSE
    wanted, spare = ("NG-77/B", Decimal(2), Decimal(40)), ("NG-77/B", Decimal(3), None)
    assert list(lines) == [wanted, spare]
    assert next(need for need in parts(build).needs if need.pick.component == "own-2").word() == "ordered"


def test_where_nobody_lists_it_any_more_it_is_ordered_at_what_was_typed() -> None:
    build = built(kept())
    taken(read(listed("B-1", "5")), "other.csv")
    need = next(need for need in parts(build).needs if need.pick.component == "own-2")
    assert need.offer is not None
    assert (need.offer.supplier, need.offer.cost, need.offer.pack) == (HOUSE, Decimal(40), 1)


def test_two_suppliers_with_the_same_number_are_two_offers() -> None:
    line = kept()
    elsewhere = line.model_copy(update={"supplier": "crank_line", "cost": Decimal(55)})
    costs = {offer.supplier: offer.cost for offer in listed_offers([line, elsewhere]).values()}
    assert costs == {HOUSE: Decimal(40), "crank_line": Decimal(55)}


def test_an_own_line_without_a_supplier_is_ordered_by_nobody() -> None:
    need = next(need for need in parts(built(kept())).needs if need.pick.component == "own-1")
    assert need.word() == "no supplier"


def work_with(line: OwnLine, build: Acceptance) -> None:
    lines = [
        DraftLine(
            kind="part",
            description=line.description,
            quantity=line.quantity,
            unit=line.unit,
            unit_price=line.unit_price,
            tax_code="standard",
            **line.model_dump(include={"supplier", "number", "cost"}),
        )
    ]
    extra = offer_extra_work(build=build, words="Dowel worn", lines=lines, by=desk(), now=NOW)
    answer_extra_work(extra=extra, accepted=True, name="Marel Otten", how="in writing", by=desk(), now=NOW)


def test_extra_work_found_later_orders_a_listed_part_as_a_quote_does() -> None:
    line, build = kept(), real_build()
    before = quoted_takes([build.pk])[build.pk].parts
    work_with(line, build)
    taken(read(listed("NG-77/B", "41", pack=5, lead_days=3)), "later.csv")
    need = next(need for need in parts(build).needs if need.pick.key == "work:1:1")
    assert (need.word(), need.pick.quoted_cost, need.pick.component) == ("to order", Decimal(40), "work-1-1")
    order = send_order(asked=[Asked(build.pk, need.pick.key, need.pick.component)], by=desk(), now=NOW)
    first = OrderLine.objects.filter(order=order).order_by("position").first()
    assert first is not None
    assert (order.supplier, first.part_number, first.unit_cost, first.quoted_unit_cost) == (
        HOUSE,
        "NG-77/B",
        Decimal(41),
        Decimal(40),
    )
    assert quoted_takes([build.pk])[build.pk].parts == before + 80
