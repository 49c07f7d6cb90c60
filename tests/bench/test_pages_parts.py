"""The pages of parts: pick list, orders, taking in, substitutes and cores."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.links import new_link
from quotes.calc.bench.parts.order_sheet import OrderSheet
from quotes.models import (
    Acceptance,
    Core,
    OrderEvent,
    OwnPart,
    PurchaseOrder,
    StockUse,
    Substitute,
    SupplierBill,
)
from tests.bench.cast import job
from tests.bench.parts_cast import ordered, parts, reading, real_build, told
from tests.books.ledger_cast import paid
from tests.books.page_forms import text_of, typed
from tests.cast import builder, desk, owner
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped

TODAY = str(ON)


@pytest.fixture
def of(db: None) -> Acceptance:
    load_shipped()
    return real_build()


@pytest.fixture
def at_desk(client: Client, of: Acceptance) -> Client:
    client.force_login(desk())
    return client


def test_the_pick_list_says_what_is_to_order_by_when_and_what_waits_for_a_reading(
    at_desk: Client, of: Acceptance
) -> None:
    page = text_of(at_desk.get(reverse("pick-list", args=[of.pk])))

    assert "Kit not complete: 0 of 33 articles here, 31 to order, the first by 20 Jan 2027." in page
    assert "Measure the big-end journals or their clearance first" in page
    assert "Promised for 29 Mar 2027" in page


def test_the_pick_list_says_that_the_deposit_is_not_in_until_it_is(at_desk: Client, of: Acceptance) -> None:
    said = "The deposit is not in yet."
    assert said in text_of(at_desk.get(reverse("pick-list", args=[of.pk])))

    paid(of.deposit, customer=of.quote.customer, build=of, deposit=True)

    assert said not in text_of(at_desk.get(reverse("pick-list", args=[of.pk])))


def test_ticked_lines_are_drawn_up_by_supplier_and_sent_once(at_desk: Client, of: Acceptance) -> None:
    springs = f"{of.pk}|option:part:valve_spring|valve_spring"
    page = at_desk.get(reverse("order-new"), {"line": springs})
    assert page.content.decode().count("checked") == 1

    first = at_desk.post(reverse("order-new"), {"line": springs, "supplier": "x"}, follow=True)
    again = at_desk.post(reverse("order-new"), {"line": springs, "supplier": "x"})

    assert "P-2026-0001" in text_of(first)
    assert again.status_code == 200
    assert PurchaseOrder.objects.count() == 1


def test_an_order_leads_to_its_bill_and_the_bill_back(client: Client, of: Acceptance) -> None:
    client.force_login(owner())
    order = ordered(of, "rings", "valve_spring")
    assert (
        f"/books/bills/new/?order={order.pk}"
        in client.get(reverse("order", args=[order.pk])).content.decode()
    )

    page = client.get(reverse("bill-new"), {"order": order.pk})
    net = page.context["form"].lines[0]["net"].value()
    told = {"bill-supplier_number": "B-1", "bill-on": TODAY, "bill-tax": "0", "bill-gross": net, "enter": "1"}
    kept = client.post(reverse("bill-new"), typed(page, **told), follow=True)

    (bill,) = SupplierBill.objects.all()
    assert bill.net == OrderSheet.model_validate(order.sheet).net
    assert bill.lines.get().build == of
    assert order.number in text_of(kept)
    assert f"Its bill {bill.number}" in text_of(client.get(reverse("order", args=[order.pk])))


def test_a_part_without_its_reading_is_not_offered_and_not_ordered(at_desk: Client, of: Acceptance) -> None:
    shells = f"{of.pk}|option:part:rod_bearing|rod_bearing"
    assert shells not in at_desk.get(reverse("order-new")).content.decode()
    at_desk.post(reverse("order-new"), {"line": shells})
    assert not PurchaseOrder.objects.exists()

    reading(job(quote=of.quote), "crankshaft")
    page = at_desk.get(reverse("order-new")).content.decode()
    assert shells in page
    at_desk.post(reverse("order-new"), {"line": shells, f"size|{shells}": "green"})
    assert PurchaseOrder.objects.get().lines.get().size == "green"


def test_what_came_whole_is_one_press_and_a_second_press_is_nothing(client: Client, of: Acceptance) -> None:
    order = ordered(of, "valve_spring")
    line = order.lines.get()
    client.force_login(builder())
    address = reverse("receive-parts", args=[order.pk])
    sent = {"line": line.pk, "kind": "received", "quantity": "16", "on": TODAY, "key": str(uuid4())}

    assert "All 16 came, whole" in text_of(client.get(address))
    client.post(address, sent)
    client.post(address, sent)

    assert "16 ordered: 16 here and good." in text_of(client.get(address))
    assert line.events.count() == 1


def test_more_than_was_ordered_comes_back_at_its_field_with_what_was_typed(
    at_desk: Client, of: Acceptance
) -> None:
    order = ordered(of, "valve_spring")
    address = reverse("receive-parts", args=[order.pk])
    sent = {"line": order.lines.get().pk, "kind": "received", "quantity": "17", "on": TODAY}

    page = at_desk.post(address, sent)

    assert "17 is more than is still to come: 16 of 16" in text_of(page)
    assert 'value="17"' in page.content.decode()


def test_a_substitute_of_another_grade_asks_the_customer_first(at_desk: Client, of: Acceptance) -> None:
    line = ordered(of, "valve_spring").lines.get()
    address = reverse("substitute", args=[line.pk])
    form = typed(at_desk.get(address), "", instead__part_number="X-1", instead__description="Race springs")
    form |= {"instead-grade": "performance", "instead-unit_cost": "14", "instead-unit_price": "21"}
    form |= {"instead-supplier": line.order.supplier, "instead-why": "None to be had", "what": "instead"}

    page = at_desk.post(address, form, follow=True)

    row = Substitute.objects.get()
    assert row.extra_work is not None
    assert f"asked under {row.extra_work.number}" in text_of(page)
    refused = at_desk.post(reverse("substitute-decide", args=[row.pk]), {"order": "1"}, follow=True)
    assert "only when the customer has said yes" in text_of(refused)


def test_cores_show_the_days_left_and_are_sent_and_refunded(at_desk: Client, of: Acceptance) -> None:
    address = reverse("cores")
    at_desk.post(
        address,
        {
            "core-build": of.pk,
            "core-description": "Crankshaft",
            "core-supplier": parts(of).needs[0].offer.supplier,  # type: ignore[union-attr]
            "core-deposit": "150",
            "core-on": TODAY,
        },
    )
    row = Core.objects.get()
    assert row.due_back_on == row.opened_on + timedelta(days=30)
    assert "Crankshaft" in text_of(at_desk.get(address))

    at_desk.post(reverse("core-moved", args=[row.pk]), {"what": "refunded"})
    row.refresh_from_db()
    assert row.state == "here"
    for what in ("sent", "refunded"):
        at_desk.post(reverse("core-moved", args=[row.pk]), {"what": what})
    row.refresh_from_db()
    assert row.state == "refunded"


def test_an_own_part_leaves_the_pick_list(at_desk: Client, of: Acceptance) -> None:
    address = reverse("pick-list", args=[of.pk])
    told = {"what": "own", "own-component": "valve_spring", "own-description": "Springs of his own"}
    told |= {"own-quantity": "16", "own-received_on": TODAY, "own-fit_to_use": "yes"}

    at_desk.post(address, {**told, "key": uuid4().hex})

    assert OwnPart.objects.get().fit_to_use
    assert "valve_spring" not in {need.pick.component for need in parts(of).needs}
    assert "without our warranty" in text_of(at_desk.get(address))


def test_the_shelf_gives_no_more_than_is_wanted_and_takes_back_no_more_than_it_gave(
    at_desk: Client, of: Acceptance
) -> None:
    address = reverse("pick-list", args=[of.pk])
    taken = {"what": "shelf", "shelf-component": "valve_spring", "shelf-on": TODAY}

    at_desk.post(address, taken | {"shelf-quantity": "16", "shelf-cost": "160"})
    page = at_desk.post(address, taken | {"shelf-quantity": "16", "shelf-cost": "160"})
    assert "16 is more than the build still wants of it: 0" in text_of(page)
    at_desk.post(address, taken | {"shelf-quantity": "-4", "shelf-cost": "-40"})
    page = at_desk.post(address, taken | {"shelf-quantity": "-13", "shelf-cost": "-130"})

    assert "13 can't go back: 12 were taken" in text_of(page)
    assert [int(row.quantity) for row in StockUse.objects.order_by("pk")] == [16, -4]


def test_the_job_page_says_how_its_parts_stand(at_desk: Client, of: Acceptance) -> None:
    came = job(quote=of.quote)

    page = text_of(at_desk.get(reverse("job", args=[came.pk])))

    assert "Parts and ready date" in page
    assert "kit not complete: 0 of 33 articles here" in page


@pytest.mark.parametrize("many", [1, 6])
def test_lists_take_the_same_queries_however_long_they_are(
    at_desk: Client, of: Acceptance, many: int, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    for number in range(many - 1):
        real_build(f"H4-3000{number}")
    for build in Acceptance.objects.all():
        ordered(build, "valve_spring")
        ordered(build, "gear_2")

    for name, most in (("order-list", 10), ("order-new", 22), ("cores", 12)):
        at_desk.get(reverse(name))
        with django_assert_max_num_queries(most):
            at_desk.get(reverse(name))


def test_everything_came_is_one_press(at_desk: Client, of: Acceptance) -> None:
    order = ordered(of)
    sent = {"all": "1", "key": uuid4().hex}

    for _ in range(2):
        at_desk.post(reverse("receive-parts", args=[order.pk]), sent)

    assert OrderEvent.objects.count() == order.lines.count() > 1
    assert "done." in text_of(at_desk.get(reverse("order", args=[order.pk])))


def test_what_costs_more_than_quoted_lessens_the_margin_and_so_does_a_second_one(
    at_desk: Client, of: Acceptance
) -> None:
    line = ordered(of, "valve_spring").lines.get()
    told(line, "received", 16, unit_cost=line.unit_cost + 2)
    again = {"what": "again", "again-quantity": "1", "again-why": "Dropped", "key": uuid4().hex}
    address = reverse("substitute", args=[line.pk])
    for _ in range(2):
        at_desk.post(address, again)

    page = text_of(at_desk.get(reverse("pick-list", args=[of.pk])))

    assert PurchaseOrder.objects.count() == 2
    assert "a second one, at our own cost" in page
    assert "Less margin in all 40.00" in page


def test_the_day_sheet_says_what_to_order_what_is_late_and_which_core_is_due(
    at_desk: Client, of: Acceptance
) -> None:
    ordered(of, "valve_spring", now=NOW - timedelta(days=60))
    Core.objects.create(
        build=of,
        description="Crankshaft",
        supplier="x",
        deposit=Decimal(1),
        opened_on=ON,
        due_back_on=timezone.localdate(),
    )

    page = text_of(at_desk.get(reverse("home")))

    assert "where P-2026-0001 is: it has not come in full" in page
    assert "Send back the core Crankshaft" in page


def test_the_customer_reads_what_was_promised_and_what_holds_now(client: Client, of: Acceptance) -> None:
    job(quote=of.quote)
    token = new_link(quote=of.quote, by=desk(), now=timezone.now()).token

    assert "Promised for 29 Mar 2027, met" in text_of(client.get(f"/q/{token}/"))
