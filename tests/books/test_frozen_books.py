"""What the books have issued is neither changed nor deleted: not by a row, not in bulk, not by SQL."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.db import IntegrityError, connection, models, transaction
from django.db.models import ProtectedError

from quotes.actions.books.batches import start_batch
from quotes.actions.books.bills import pay_bill
from quotes.actions.books.build_costs import use_stock
from quotes.actions.books.entering_bills import enter_bill
from quotes.actions.books.keeping_bills import BillLineGiven
from quotes.actions.books.payments import take_payment
from quotes.actions.books.write_off import write_off
from quotes.models import (
    Acceptance,
    Allocation,
    BillLine,
    BillPayment,
    CalledOff,
    ExportBatch,
    ExtraWork,
    Invoice,
    IssuedForGood,
    JournalEntry,
    JournalLine,
    OpenItem,
    Payment,
    StockUse,
    SupplierBill,
    WriteOff,
)
from quotes.models.frozen import Frozen
from quotes.models.frozen_tables import FROZEN
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books, owner

KEPT: tuple[type[Frozen], ...] = (
    Invoice,
    Payment,
    WriteOff,
    Allocation,
    JournalEntry,
    JournalLine,
    SupplierBill,
    BillLine,
    BillPayment,
    StockUse,
    ExtraWork,
    CalledOff,
    ExportBatch,
)
BY_TABLE = {model._meta.db_table: model for model in KEPT}


@pytest.fixture
def everything(build: Acceptance) -> Acceptance:
    """At least one row of each kind."""
    on, by = NOW.date(), books()
    cast.extra_work(build)
    invoice = cast.invoiced(build)
    paid: dict[str, Any] = {"customer": invoice.customer, "on": on, "method": "cash", "by": by, "now": NOW}
    take_payment(amount=Decimal(100), key="one", **paid)
    item = OpenItem.objects.get(invoice=invoice)
    write_off(item=item, amount=Decimal(5), reason="Goodwill", on=on, by=owner(), now=NOW)
    lines = [BillLineGiven("part", "Springs", Decimal(50), build)]
    bill = enter_bill(
        supplier="Main parts wholesale",
        supplier_number="M1",
        on=on,
        due_on=on,
        lines=lines,
        tax=Decimal(10),
        by=by,
        now=NOW,
    )
    pay_bill(bill=bill, on=on, method="transfer", by=by, now=NOW)
    shelf: dict[str, Any] = {"description": "Seals", "component": "", "quantity": Decimal(1)}
    use_stock(build=build, cost=Decimal(3), on=on, by=by, now=NOW, **shelf)
    start_batch(by=by, now=NOW)
    CalledOff.objects.create(build=build, reason="Sold", said_by="Marel Otten", on=on, at=NOW, by=by)
    return build


def test_the_triggers_cover_every_column_that_is_not_filled_in_later() -> None:
    for model in KEPT:
        fields = {field for field in model._meta.concrete_fields if not field.primary_key}
        later = {"search_key"} | model.LATER
        frozen = {field.column for field in fields if field.name not in later}
        assert frozen == set(FROZEN[model._meta.db_table]), model.__name__


def test_the_database_refuses_to_change_any_frozen_column(everything: Acceptance) -> None:
    for table, columns in FROZEN.items():
        for column in columns:
            assert_refused(f'UPDATE {table} SET "{column}" = "{column}"')


def test_the_database_refuses_to_delete_any_issued_row(everything: Acceptance) -> None:
    for table in FROZEN:
        assert_refused(f"DELETE FROM {table}")


def assert_refused(statement: str) -> None:
    with pytest.raises(IntegrityError, match="for good"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)


def test_the_models_refuse_to_change_or_delete_an_issued_row(everything: Acceptance) -> None:
    for model in KEPT:
        row = model._default_manager.all()[0]
        with pytest.raises(IssuedForGood):
            row.save()
        with pytest.raises(IssuedForGood):
            row.delete()


def test_the_models_refuse_to_change_or_delete_issued_rows_in_bulk(everything: Acceptance) -> None:
    for model in KEPT:
        rows: models.QuerySet[Frozen] = model._default_manager.all()
        change: dict[str, Any] = {"id": 1}
        with pytest.raises(IssuedForGood):
            rows.update(**change)
        with pytest.raises(IssuedForGood):
            rows.delete()


def test_a_named_field_of_an_invoice_can_not_be_saved(build: Acceptance) -> None:
    invoice = cast.invoiced(build)
    invoice.due_on = date(2030, 1, 1)

    with pytest.raises(IssuedForGood):
        invoice.save(update_fields=["due_on"])


def test_what_an_invoice_rests_on_can_not_be_deleted(build: Acceptance) -> None:
    invoice = cast.invoiced(build)

    for row in (invoice.draft, invoice.customer, invoice.pdf):
        with pytest.raises(ProtectedError):
            row.delete()
