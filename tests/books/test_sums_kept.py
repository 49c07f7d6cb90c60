"""The database keeps sums that add up, also those that floating point can't add, and no others."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.db import IntegrityError, connection, transaction

from quotes.models import Invoice, SupplierBill
from tests.books import posted
from tests.books.posted import NOW, ON
from tests.cast import books

pytestmark = pytest.mark.django_db


def bill(net: str, tax: str, gross: str, number: str = "B-1") -> SupplierBill:
    return SupplierBill.objects.create(
        number=number,
        supplier="Tin Lane Bearings",
        supplier_number="1",
        on=ON,
        net=Decimal(net),
        tax=Decimal(tax),
        gross=Decimal(gross),
        entered_by=books(),
        entered_at=NOW,
    )


def test_sums_that_floating_point_gets_wrong_are_kept() -> None:
    """In floating point 320.36 + 19.22 is 339.58000000000004."""
    posted.issued("I-2026-0001", ("320.36",))
    bill("320.36", "19.22", "339.58")

    assert Invoice.objects.get().gross == SupplierBill.objects.get().gross == Decimal("339.58")


def test_a_suppliers_number_stands_once_and_may_stand_again_when_it_was_taken_back() -> None:
    first = bill("100", "20", "120")
    with pytest.raises(IntegrityError), transaction.atomic():
        bill("100", "20", "120", number="B-2")

    first.taken_back_at = NOW
    first.save(update_fields=["taken_back_at"])

    assert bill("100", "20", "120", number="B-2").supplier_number == first.supplier_number


def test_a_gross_that_is_off_by_the_last_decimal_is_refused() -> None:
    with pytest.raises(IntegrityError, match="supplier_bill_net_and_tax_are_gross"), transaction.atomic():
        bill("320.36", "19.22", "339.581")


def test_the_rebuilt_tables_still_refuse_change() -> None:
    posted.issued("I-2026-0001")
    for change in ("UPDATE quotes_invoice SET gross = 1", "DELETE FROM quotes_invoice"):
        with pytest.raises(IntegrityError), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(change)
