"""A build from its deposit to its last payment, with all that may happen on the way, exported."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from quotes.actions.books.batches import finish_batch, start_batch
from quotes.actions.books.bills import pay_bill
from quotes.actions.books.build_costs import use_stock
from quotes.actions.books.opening import enter_opening
from quotes.actions.books.opening_rows import OpeningItem
from quotes.actions.books.write_off import write_off
from quotes.models import BatchState, ExportBatch, Invoice
from tests.books import cast
from tests.books.cast import NOW, ON
from tests.books.ledger_cast import billed, bounced, deposit, for_what, item_of, marel, paid, paid_back
from tests.books.read_back import Rows, sheets, total
from tests.cast import books, owner

pytestmark = pytest.mark.usefixtures("sound_ledger")
TOMORROW = NOW + timedelta(days=1)


def exported(**period: date) -> ExportBatch:
    batch = finish_batch(batch_id=start_batch(by=books(), now=TOMORROW, **period).pk)
    assert batch.state == BatchState.READY, batch.failed_because
    return batch


def read(batch: ExportBatch) -> dict[str, Rows]:
    assert batch.workbook is not None
    return sheets(bytes(batch.workbook.content))


def sums_of_invoices() -> tuple[Decimal, Decimal, Decimal]:
    rows = [(-1 if row.kind == "credit_note" else 1, row) for row in Invoice.objects.all()]
    net, tax, gross = (
        sum((sign * getattr(row, name) for sign, row in rows), Decimal(0)) for name in ("net", "tax", "gross")
    )
    return net, tax, gross


def totals_agree(found: dict[str, Rows]) -> None:
    net, tax, gross = sums_of_invoices()
    assert total(found["Sales journal"], "Net") == total(found["Lines"], "Net") == net
    sales = [row for row in found["Tax summary"] if row["Side"] == "sales"]
    assert total(found["Sales journal"], "Tax") == total(sales, "Tax") == tax
    assert total(found["Sales journal"], "Gross") == gross
    assert total(found["Journal"], "Debit") == total(found["Journal"], "Credit")


def test_a_deposit_invoice_is_taken_off_and_part_is_credited_and_paid() -> None:
    build = cast.build()
    cast.deposited(build)
    cast.extra_work(build)
    final = cast.invoiced(build)
    cast.credited(final, {3: "1"})
    paid("1000")

    found = read(exported())

    totals_agree(found)
    assert found["Deposits held"] == []
    refers = {row["Number"]: row["Refers to"] for row in found["Sales journal"]}
    assert refers == {"D-2026-0001": "", "I-2026-0001": "D-2026-0001", "C-2026-0001": "I-2026-0001"}


def test_a_deposit_by_receipt_is_held_until_the_invoice_takes_it_off() -> None:
    cast.vat_shop()
    cast.keep_settings(deposit_by="receipt")
    build = cast.build()
    number = build.quote.number
    deposit(build, "500")

    before = read(exported())
    assert before["Deposits held"] == [{"Build": number, "Customer": "Marel Otten", "Held": 500.0}]
    cast.invoiced(build)
    after = read(exported())

    totals_agree(after)
    assert after["Deposits held"] == []
    (sale,) = after["Sales journal"]
    assert (sale["Paid before"], sale["Due"]) == (500.0, sale["Gross"] - 500)


def test_refund_bounced_cheque_write_off_bills_stock_and_opening_all_balance() -> None:
    build = cast.build()
    enter_opening(
        on=ON - timedelta(days=30),
        amounts={"bank": Decimal("900.10")},
        customers=[OpeningItem(marel(), "OLD-1", ON - timedelta(days=60), None, Decimal("99.90"))],
        by=books(),
        now=NOW,
    )
    pay_bill(
        bill=billed("1", for_what("part", "200", build), tax="40"),
        on=ON,
        method="transfer",
        by=books(),
        now=NOW,
    )
    use_stock(
        build=build, description="Shims", component="", quantity=Decimal(2), cost=Decimal("7.30"),
        on=ON, by=books(), now=NOW,
    )  # fmt: skip
    invoice = cast.invoiced(build)
    bounced(paid("300", method="cheque"))
    paid_back("50", from_item=item_of(paid("5000")))
    write_off(item=item_of(cast.invoiced(cast.build("H4-2"))), amount=Decimal("10"), reason="Goodwill",
              on=ON, by=owner(), now=NOW)  # fmt: skip

    found = read(exported())

    totals_agree(found)
    assert invoice.number in {row["Number"] for row in found["Sales journal"]}
    assert total(found["Payments"], "Amount") == Decimal("4950")
    (given_up,) = [row for row in found["Tax summary"] if row["Side"] == "written off"]
    assert (given_up["Taxable"], given_up["Tax"], given_up["Documents"]) == (8.33, 1.67, 1)
    (purchases,) = [row for row in found["Tax summary"] if row["Side"] == "purchases"]
    assert (purchases["Taxable"], purchases["Tax"]) == (200.0, 40.0)


def test_sales_tax_shows_its_state_and_county_parts() -> None:
    cast.sales_tax_shop()
    cast.invoiced(cast.build())

    found = read(exported())

    totals_agree(found)
    names = {row["Component"] for row in found["Tax summary"] if row["Tax"]}
    assert names == {"State", "County"}


def test_each_document_is_in_one_batch_through_the_quarters() -> None:
    """A job over a year end: the deposit in one year's books, the invoice in the next one's."""
    december = NOW + timedelta(days=30)
    january = NOW + timedelta(days=50)
    build = cast.build()
    cast.deposited(build, now=december)
    cast.invoiced(build, now=january)
    first = start_batch(by=books(), now=january, last=date(2026, 12, 31))
    second = start_batch(by=books(), now=january)

    pages = [read(finish_batch(batch_id=batch.pk))["Sales journal"] for batch in (first, second)]

    assert [[row["Number"] for row in page] for page in pages] == [["D-2026-0001"], ["I-2027-0001"]]
    assert (first.number, second.number) == ("E-2027-0001", "E-2027-0002")


def test_items_from_before_the_books_began_are_open_from_the_day_they_begin() -> None:
    build = cast.build()
    old = OpeningItem(marel(), "OLD-1", ON - timedelta(days=60), None, Decimal("99.90"))
    cast.deposited(build)
    enter_opening(on=ON, amounts={}, customers=[old], by=books(), now=NOW)
    paid("5", on=ON - timedelta(days=40))

    before = read(exported(last=ON - timedelta(days=30)))
    after = read(exported())

    assert [row["Number"] for row in before["Open items"]] == ["R-2026-0001"]
    assert "OLD-1" in [row["Number"] for row in after["Open items"]]
