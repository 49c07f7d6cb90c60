"""Entering a supplier's bill: checked by field, and each of a supplier's numbers once."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.keeping_bills import BillGiven, BillLineGiven, kept_bill
from quotes.actions.books.money_given import currency_now, in_coins, not_to_come
from quotes.actions.books.refused import BillEnteredAlready
from quotes.models import BillLineKind, SupplierBill
from quotes.queries.books.costs import FOR_A_BUILD

MOST_LINES = 200


@transaction.atomic
def enter_bill(
    *,
    supplier: str,
    supplier_number: str,
    on: date,
    due_on: date | None,
    lines: Sequence[BillLineGiven],
    tax: Decimal,
    by: User,
    now: datetime,
    note: str = "",
) -> SupplierBill:
    """Enter a bill, or with sums below nought a supplier's credit, split over builds, stock and overheads.

    BillEnteredAlready where the supplier's number stands, ValidationError by field, MonthClosed.
    """
    given = BillGiven(
        supplier=" ".join(supplier.split()),
        supplier_number=" ".join(supplier_number.split()),
        on=not_to_come(on, now),
        due_on=due_on,
        lines=lines,
        tax=tax,
        note=note.strip(),
    )
    _refuse_unfit(given)
    _refuse_entered(given)
    try:
        with transaction.atomic():
            return kept_bill(given, by=by, now=now)
    except (IntegrityError, ValidationError):
        _refuse_entered(given)  # refuses it where somebody else entered it a moment ago
        raise


def _refuse_unfit(given: BillGiven) -> None:
    currency = currency_now()
    if not given.lines or len(given.lines) > MOST_LINES:
        raise ValidationError(
            {
                "lines": say(
                    "{count} lines: 1 to {most} are kept.",
                    count=len(given.lines),
                    most=MOST_LINES,
                )
            }
        )
    for line in given.lines:
        in_coins(line.net, currency, "lines", above_nought=False)
        if fault := _fault_of(line):
            raise ValidationError({"lines": fault})
    in_coins(given.tax, currency, "tax", above_nought=False)
    if given.tax * given.net < ZERO or abs(given.tax) > abs(given.net):
        raise ValidationError(
            {"tax": say("{tax} can't be the tax on {net}.", tax=f"{given.tax:f}", net=f"{given.net:f}")}
        )
    if given.due_on and given.due_on < given.on:
        raise ValidationError(
            {"due_on": say("{due_on} is before the bill's own day, {on}.", due_on=given.due_on, on=given.on)}
        )


def _fault_of(line: BillLineGiven) -> str:
    """What is wrong with the kind of a line; nothing where it can be kept."""
    if line.kind not in BillLineKind.values:
        return say("“{kind}” is none of {names}.", kind=line.kind, names=", ".join(BillLineKind.values))
    if line.build and line.kind not in FOR_A_BUILD:
        label = BillLineKind(line.kind).label
        return say("{description}: {label} are for no build.", description=line.description, label=label)
    return ""


def _refuse_entered(given: BillGiven) -> None:
    """However the supplier's name and the number are written; one that was taken back is in nobody's way."""
    standing = SupplierBill.objects.standing().filter(
        supplier__iexact=given.supplier, supplier_number__iexact=given.supplier_number
    )
    if number := standing.values_list("number", flat=True).first():
        raise BillEnteredAlready(given.supplier, given.supplier_number, number)
