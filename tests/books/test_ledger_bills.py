"""Suppliers' bills, parts from the shelf, and what builds cost before and after their invoice."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.books.bills import pay_bill, reverse_bill
from quotes.actions.books.build_costs import settle_cost_of_sales, use_stock
from quotes.actions.books.refused import BillEnteredAlready, BillReversed, NotReversible
from quotes.models import Acceptance, BillPayment, JournalEntry, StockUse, SupplierBill
from quotes.queries.books.costs import build_cost, work_in_progress
from tests.books import cast
from tests.books.cast import NOW, ON
from tests.books.ledger_cast import balance, billed, for_what
from tests.cast import books

pytestmark = pytest.mark.usefixtures("sound_ledger")


def in_progress(build: Acceptance) -> Any:
    """A Decimal, untyped so that it is compared with whole numbers."""
    return work_in_progress(build)


def cost(build: Acceptance) -> tuple[Any, Any, Any]:
    """Of parts, machine work and the rest."""
    costs = build_cost(build)
    return costs.parts, costs.machine_work, costs.other


def settled(bill: SupplierBill) -> BillPayment:
    return pay_bill(bill=bill, on=ON, method="transfer", by=books(), now=NOW)


def taken_back(bill: SupplierBill, **change: Any) -> SupplierBill:
    fields: dict[str, Any] = {"on": ON, "by": books(), "now": NOW, "note": "Not ours"}
    return reverse_bill(bill=bill, **(fields | change))


def from_stock(build: Acceptance, quantity: str = "1", cost: str = "18.50") -> StockUse:
    return use_stock(
        build=build,
        description="Seals",
        component="",
        quantity=Decimal(quantity),
        cost=Decimal(cost),
        on=ON,
        by=books(),
        now=NOW,
    )


def test_a_bill_split_over_builds_is_in_progress_for_each(build: Acceptance) -> None:
    other = cast.build("H4-30518")

    bill = billed(
        "4711",
        for_what("part", "100", build),
        for_what("machine_work", "60", other),
        for_what("overhead", "40"),
        tax="40",
    )

    assert [bill.number, f"{bill.net} {bill.gross}"] == ["S-2026-0001", "200 240"]
    assert (in_progress(build), in_progress(other)) == (100, 60)
    assert (balance("tax_on_purchases"), balance("overheads"), balance("payables")) == (40, 40, -240)


def test_a_bill_is_entered_once_however_its_number_is_written(build: Acceptance) -> None:
    billed("R 4711")

    with pytest.raises(BillEnteredAlready, match="S-2026-0001"):
        billed(" r  4711", supplier="main parts  WHOLESALE")
    assert SupplierBill.objects.count() == 1
    assert billed("4711", supplier="Outside machine shop").number == "S-2026-0002"


def test_a_suppliers_credit_has_sums_below_nought(build: Acceptance) -> None:
    billed("4711", for_what("part", "100", build), tax="20")
    billed("4712", for_what("part", "-30", build), tax="-6")

    assert (in_progress(build), balance("payables"), balance("tax_on_purchases")) == (70, -84, 14)


def test_a_bill_is_paid_once_and_in_full(build: Acceptance) -> None:
    bill = billed()

    assert settled(bill) == settled(bill)
    assert (balance("payables"), balance("bank")) == (0, -100)


def test_a_bill_taken_back_is_not_paid_and_may_be_entered_anew(build: Acceptance) -> None:
    bill = billed("4711", for_what("part", "100", build), tax="20")
    back = taken_back(bill)

    assert taken_back(bill) == back
    assert (balance("payables"), in_progress(build), balance("tax_on_purchases")) == (0, 0, 0)
    for each in (bill, back):
        with pytest.raises(BillReversed):
            settled(each)
    anew = billed("4711")
    assert (anew.supplier_number, *SupplierBill.objects.unpaid()) == ("4711", anew)
    with pytest.raises(BillEnteredAlready, match=anew.number):
        billed("4711")


def test_a_paid_bill_taken_back_waits_for_the_suppliers_money(build: Acceptance) -> None:
    bill = billed()
    settled(bill)

    back = taken_back(bill)
    assert (balance("payables"), *SupplierBill.objects.unpaid()) == (100, back)
    settled(back)
    assert not SupplierBill.objects.unpaid().exists()

    assert (balance("payables"), balance("bank")) == (0, 0)


def test_what_takes_a_bill_back_is_not_taken_back_itself(build: Acceptance) -> None:
    with pytest.raises(NotReversible):
        taken_back(taken_back(billed()))
    with pytest.raises(ValidationError, match="before the bill"):
        taken_back(billed("4712"), on=ON - timedelta(days=1))


def test_parts_from_the_shelf_are_in_progress_and_go_back(build: Acceptance) -> None:
    billed("4711", for_what("stock", "100"))
    from_stock(build)
    from_stock(build, "-1", "-8.50")

    assert (in_progress(build), balance("stock")) == (10, 90)


def test_the_final_invoice_turns_work_in_progress_into_cost_of_sales(build: Acceptance) -> None:
    billed("4711", for_what("part", "100", build), for_what("freight", "8", build))
    billed("4712", for_what("machine_work", "60", build), supplier="Outside machine shop")
    from_stock(build)

    cast.invoiced(build)

    assert (in_progress(build), balance("work_in_progress")) == (0, 0)
    assert balance("cost_of_parts") == Decimal("118.50")
    assert (balance("cost_of_machine_work"), balance("cost_of_sales_other")) == (60, 8)


def test_an_invoice_of_part_of_a_build_leaves_it_in_progress(build: Acceptance) -> None:
    billed("4711", for_what("part", "100", build))

    cast.invoiced(build, kinds=["labour"])

    assert in_progress(build) == 100


def test_a_bill_after_the_final_invoice_is_cost_of_sales_at_once(build: Acceptance) -> None:
    cast.invoiced(build)

    late = billed("4711", for_what("machine_work", "60", build))
    from_stock(build)

    assert (in_progress(build), balance("cost_of_machine_work")) == (0, 60)
    assert balance("cost_of_parts") == Decimal("18.50")
    taken_back(late)
    assert balance("cost_of_machine_work") == 0


def test_costs_are_settled_once(build: Acceptance) -> None:
    cast.invoiced(build)

    assert settle_cost_of_sales(build=build, on=ON, by=books(), now=NOW) is None
    assert JournalEntry.objects.filter(source="cost_of_sales").count() == 1


def test_a_final_invoice_credited_puts_the_costs_back_in_work_until_the_next(build: Acceptance) -> None:
    billed("4711", for_what("part", "100", build), for_what("freight", "8", build))
    invoice = cast.invoiced(build)
    billed("4712", for_what("machine_work", "60", build))

    cast.credited(invoice, {1: "0.5"})
    assert in_progress(build) == 0
    cast.credited(invoice)
    billed("4713", for_what("part", "5", build))

    assert in_progress(build) == 173
    assert {balance(f"cost_of_{what}") for what in ("parts", "machine_work", "sales_other")} == {0}
    cast.invoiced(build)
    assert (in_progress(build), balance("cost_of_parts")) == (0, 105)
    assert (balance("cost_of_machine_work"), balance("cost_of_sales_other")) == (60, 8)


def test_the_credit_of_an_earlier_part_leaves_the_costs_where_the_last_invoice_stands(
    build: Acceptance,
) -> None:
    billed("4711", for_what("part", "100", build))
    first = cast.invoiced(build, kinds=["labour"])
    draft = cast.drafted(build, kinds=["part"])
    last = cast.issue(cast.changed(draft, lambda content: content.model_copy(update={"last": True})))

    cast.credited(first)
    assert in_progress(build) == 0
    cast.credited(last)
    assert in_progress(build) == 100


def test_what_a_build_cost_is_said_by_sort(build: Acceptance) -> None:
    billed("4711", for_what("part", "100", build), for_what("machine_work", "60", build), tax="32")
    from_stock(build)

    assert cost(build) == (Decimal("118.50"), 60, 0)


def test_where_no_tax_is_given_back_it_is_part_of_the_cost() -> None:
    cast.sales_tax_shop()
    build = cast.build()
    billed("4711", for_what("part", "100", build), for_what("overhead", "50"), tax="9")

    assert (in_progress(build), balance("overheads")) == (106, 53)
    assert (cost(build)[0], balance("tax_on_purchases"), balance("payables")) == (106, 0, -159)


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("supplier", {"supplier": " "}),
        ("supplier_number", {"supplier_number": ""}),
        ("tax", {"tax": Decimal("-1")}),
        ("tax", {"tax": Decimal("101")}),
        ("tax", {"tax": Decimal("0.001")}),
        ("due_on", {"due_on": ON - timedelta(days=1)}),
        ("on", {"on": ON + timedelta(days=1)}),
        ("lines", {"lines": [for_what("barter", "1")]}),
        ("lines", {"lines": []}),
        ("note", {"note": "a\x00b"}),
    ],
)
def test_what_cannot_be_kept_is_refused_at_its_field(
    build: Acceptance, field: str, change: dict[str, Any]
) -> None:
    with pytest.raises(ValidationError) as refused:
        billed(**change)

    assert list(refused.value.message_dict) == [field]
    assert not SupplierBill.objects.exists()


def test_overheads_are_for_no_build(build: Acceptance) -> None:
    with pytest.raises(ValidationError, match="for no build"):
        billed("4711", for_what("overhead", "5", build))


def test_a_cost_and_a_quantity_point_one_way(build: Acceptance) -> None:
    with pytest.raises(ValidationError, match="both ways"):
        from_stock(build, "-1", "5")
