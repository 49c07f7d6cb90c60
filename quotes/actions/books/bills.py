"""Suppliers' bills: entered once, taken back by another, paid in full."""

from __future__ import annotations

from datetime import date, datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.books.journal import post
from quotes.actions.books.keeping_bills import BillGiven, BillLineGiven, kept_bill
from quotes.actions.books.money_given import not_to_come, way_to_pay
from quotes.actions.books.refused import BillReversed, NotReversible
from quotes.actions.saving import save_checked
from quotes.calc.books.posting import bill_payment_entry
from quotes.models import BillPayment, SupplierBill
from quotes.queries.books.chart import accounts_now


@transaction.atomic
def reverse_bill(*, bill: SupplierBill, on: date, by: User, now: datetime, note: str = "") -> SupplierBill:
    """Take a bill back by one with the opposite sums; a second press gives the same one.

    Neither is paid then. Where the bill had been paid, the one that takes it back waits for the supplier's
    money. The bill may be entered anew, under its own number.
    """
    row = SupplierBill.objects.select_for_update().get(pk=bill.pk)
    if standing := SupplierBill.objects.filter(reverses=bill).first():
        return standing
    if bill.reverses_id is not None:
        raise NotReversible(
            say("{number} takes a bill back itself. Enter the bill anew instead.", number=bill.number)
        )
    if on < bill.on:
        raise ValidationError(
            {"on": say("{on} is before the bill itself, {bill_on}.", on=on, bill_on=bill.on)}
        )
    lines = [
        BillLineGiven(line.kind, line.description, -line.net, line.build)
        for line in bill.lines.select_related("build__quote")
    ]
    given = BillGiven(
        supplier=bill.supplier,
        supplier_number=bill.supplier_number,
        on=not_to_come(on, now),
        due_on=None,
        lines=lines,
        tax=-bill.tax,
        note=note.strip(),
        reverses=bill,
    )
    row.taken_back_at = now
    row.save(update_fields=["taken_back_at"])
    return kept_bill(given, by=by, now=now)


@transaction.atomic
def pay_bill(*, bill: SupplierBill, on: date, method: str, by: User, now: datetime) -> BillPayment:
    """Pay a bill in full, or take what a supplier pays back; a second press gives the same payment."""
    row = SupplierBill.objects.select_for_update().get(pk=bill.pk)
    if standing := BillPayment.objects.filter(bill=row).first():
        return standing
    _refuse_reversed(row)
    payment = save_checked(
        BillPayment(
            bill=row,
            on=not_to_come(on, now),
            method=way_to_pay(method),
            paid_by=by,
            paid_at=now,
        )
    )
    entry = bill_payment_entry(
        on=on,
        number=row.number,
        supplier=row.supplier,
        method=method,
        gross=row.gross,
        accounts=accounts_now(),
    )
    post(entry=entry, by=by, now=now, bill=row)
    return payment


def _refuse_reversed(bill: SupplierBill) -> None:
    """An unpaid bill and the one that took it back settle each other."""
    taken_back_by = SupplierBill.objects.filter(reverses=bill).first()
    if taken_back_by:
        raise BillReversed(bill.number, taken_back_by.number)
    original = bill.reverses
    if original and not BillPayment.objects.filter(bill=original).exists():
        raise BillReversed(original.number, bill.number)
