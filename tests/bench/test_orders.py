"""Purchase orders: only what was accepted, only what is measured, once."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from pypdf import PdfReader

from catalogue.actions.entries import count_up
from catalogue.models import Offer
from quotes.actions.bench.orders import send_order
from quotes.actions.bench.parts_refused import NothingToOrder, NotMeasured, TwoSuppliers
from quotes.calc.bench.parts.order_sheet import OrderSheet
from quotes.documents.bench.order import order_csv, order_pdf
from quotes.models import Acceptance, IssuedForGood, OrderLine, PurchaseOrder
from quotes.queries.bench.parts.orders import orders_late, orders_listed
from quotes.queries.record.money import orders
from tests.bench.cast import job
from tests.bench.parts_cast import LATER, asked_for, ordered, parts, reading, real_build, told
from tests.cast import desk
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped


@pytest.fixture
def of(db: None) -> Acceptance:
    load_shipped()
    return real_build()


def test_an_order_takes_what_was_ticked_at_its_cost_with_its_days(of: Acceptance) -> None:
    order = ordered(of, "valve_spring")

    (line,) = order.lines.all()
    need = next(need for need in parts(of).needs if need.pick.component == "valve_spring")
    assert (order.number, int(line.quantity)) == ("P-2026-0001", 16)
    assert line.unit_cost == line.quoted_unit_cost
    assert line.expected_on is not None
    assert line.slow_on is not None
    assert ON < line.expected_on < line.slow_on
    assert (need.word(), need.words()) == ("ordered", "16 ordered")


def test_a_second_press_orders_nothing_twice(of: Acceptance) -> None:
    ticked = asked_for(of, "valve_spring")
    send_order(asked=ticked, by=desk(), now=NOW)

    with pytest.raises(NothingToOrder):
        send_order(asked=ticked, by=desk(), now=NOW)

    assert PurchaseOrder.objects.count() == 1


def test_two_builds_are_put_together_and_the_spare_pieces_go_to_stock(of: Acceptance) -> None:
    Offer.objects.filter(part__component="valve_spring").update(pack=10)
    count_up()
    other = real_build("H4-20418")

    order = send_order(
        asked=[*asked_for(of, "valve_spring"), *asked_for(other, "valve_spring")], by=desk(), now=NOW
    )

    assert [(row.build_id, int(row.quantity), row.line_key) for row in order.lines.all()][:2] == [
        (of.pk, 16, "option:part:valve_spring"),
        (other.pk, 16, "option:part:valve_spring"),
    ]
    spare = order.lines.last()
    assert spare is not None
    assert (spare.build_id, int(spare.quantity), spare.line_key) == (None, 8, "stock")


def test_one_order_goes_to_one_supplier(of: Acceptance) -> None:
    suppliers: dict[str, str] = {}
    for need in parts(of).needs:
        if need.orderable and need.offer:
            suppliers.setdefault(need.offer.supplier, need.pick.component)
    first, second, *_ = suppliers.values()

    with pytest.raises(TwoSuppliers, match="one supplier"):
        send_order(asked=asked_for(of, first, second), by=desk(), now=NOW)


def test_shims_wait_for_their_reading_and_then_for_their_size(of: Acceptance) -> None:
    of = real_build("H4-20419", tier="mild")
    came = job(quote=of.quote)
    with pytest.raises(NotMeasured, match="Measure the valve clearances first, as measured when it is back"):
        send_order(asked=asked_for(of, "shim"), by=desk(), now=NOW)

    reading(came, "valve_intake")
    with pytest.raises(NotMeasured):
        send_order(asked=asked_for(of, "shim"), by=desk(), now=NOW)
    row = reading(came, "valve_intake", "machined")
    with pytest.raises(ValidationError, match="Write the size"):
        send_order(asked=asked_for(of, "shim"), by=desk(), now=NOW)

    order = send_order(asked=asked_for(of, "shim", size="8 x 2.45, 8 x 2.50"), by=desk(), now=NOW)
    (line,) = order.lines.all()
    assert (line.reading, line.size) == (row, "8 x 2.45, 8 x 2.50")


def test_an_order_that_was_sent_does_not_change(of: Acceptance) -> None:
    order = ordered(of, "valve_spring")

    with pytest.raises(IssuedForGood):
        order.save()
    with pytest.raises(IssuedForGood):
        order.lines.all().update(quantity=1)


def test_paper_and_file_say_the_same_and_neither_is_run_by_a_spreadsheet(of: Acceptance) -> None:
    sheet = OrderSheet.model_validate(ordered(of, "valve_spring").sheet)
    first = replace_description(sheet, "=HYPERLINK(1)")

    text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(order_pdf(sheet))).pages)
    text = "".join(text.split())
    rows = list(csv.DictReader(io.StringIO(order_csv(first).decode("utf-8-sig"))))

    for said in ("P-2026-0001", sheet.articles[0].part_number, sheet.supplier.replace(" ", ""), "16"):
        assert said in text
    assert rows[0]["Description"] == "'=HYPERLINK(1)"
    assert Decimal(rows[0]["Net"]) == sheet.net == sheet.articles[0].unit_cost * 16


def replace_description(sheet: OrderSheet, words: str) -> OrderSheet:
    row = sheet.articles[0].model_copy(update={"description": words})
    return sheet.model_copy(update={"articles": (row, *sheet.articles[1:])})


def test_what_went_back_or_was_cancelled_is_to_be_ordered_again(of: Acceptance) -> None:
    (line,) = ordered(of, "valve_spring").lines.all()
    told(line, "received", 10)
    told(line, "damaged", 4)
    told(line, "returned", 4)
    told(line, "cancelled", 2)

    need = next(need for need in parts(of).needs if need.pick.component == "valve_spring")
    assert need.words() == "10 here, 6 to order"


def test_more_than_was_ordered_is_refused_at_its_field(of: Acceptance) -> None:
    (line,) = ordered(of, "valve_spring").lines.all()

    with pytest.raises(ValidationError) as wrong:
        told(line, "received", 17)

    assert "17 is more than is still to come: 16 of 16" in wrong.value.message_dict["quantity"][0]


@pytest.mark.parametrize(
    ("kind", "change", "field"),
    [
        ("received", {"on": date(2026, 11, 24)}, "on"),
        ("received", {"on": date(2027, 1, 1)}, "on"),
        ("back_ordered", {"promised_on": None}, "promised_on"),
        ("back_ordered", {"promised_on": date(2026, 12, 1)}, "promised_on"),
        ("damaged", {"note": ""}, "note"),
        ("wrong", {"note": " "}, "note"),
    ],
)
def test_an_event_that_can_not_be_is_refused_at_its_field(
    of: Acceptance, kind: str, change: dict[str, object], field: str
) -> None:
    (line,) = ordered(of, "valve_spring").lines.all()

    with pytest.raises(ValidationError) as wrong:
        told(line, kind, 1, **change)  # type: ignore[arg-type]

    assert list(wrong.value.message_dict) == [field]


def test_a_receipt_sent_twice_is_kept_once(of: Acceptance) -> None:
    (line,) = ordered(of, "valve_spring").lines.all()
    told(line, "back_ordered", 16)
    key = uuid4()

    first, again = (told(line, "received", 8, key=key) for _ in range(2))

    assert first == again
    assert sum(row.quantity for row in line.events.all()) == 16
    assert not OrderLine.objects.exclude(pk=line.pk).exists()


def test_an_order_is_done_once_every_line_is_here_and_not_after_a_slip(of: Acceptance) -> None:
    order = ordered(of)
    first, *rest, second = order.lines.all()

    for line in (first, *rest):
        told(line, "received", int(line.quantity))
    assert done(order) is False
    told(second, "damaged", int(second.quantity), note="bent")
    assert done(order) is False
    told(second, "returned", int(second.quantity))
    assert done(order) is True
    told(first, "received", -1)
    assert done(order) is False
    assert [str(fault) for faults in orders() for fault in faults] == []

    last = first.expected_on
    assert last is not None
    for day in (last, last + timedelta(days=1)):
        assert orders_late(day, 1) == [one.order for one in orders_listed(day) if one.late(day)]
    assert orders_late(day, 1) == [order]


def done(order: PurchaseOrder) -> bool:
    return PurchaseOrder.objects.get(pk=order.pk).done_at is not None


def test_a_kit_is_complete_when_every_article_is_here(of: Acceptance) -> None:
    came = job(quote=of.quote)
    for component in ("valve_intake", "bore", "crankshaft"):
        reading(came, component, "machined")
    assert not parts(of).complete

    while any(need.orderable for need in parts(of).needs):
        ticked = [replace(one, size="as read") for one in asked_for(of)]
        for line in send_order(asked=ticked, by=desk(), now=NOW).lines.all():
            told(line, "received", int(line.quantity))

    found = parts(of, LATER.date())
    assert [need.pick.description for need in found.needs if not need.complete] == []
    assert found.complete
