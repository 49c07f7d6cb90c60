"""Writing a supplier's bill with its lines and its entry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import cast

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.calc.money import ZERO
from quotes.actions.audit.bulk import add_all
from quotes.actions.books.journal import pass_the_gate, post
from quotes.actions.books.numbers import series_number
from quotes.actions.saving import checked, save_checked
from quotes.calc.books.bill_costs import costs_with_tax
from quotes.calc.books.posting import BillCost, BillLineKind, bill_entry
from quotes.models import Acceptance, BillLine, SupplierBill, TaxStyle, Workshop
from quotes.queries.books.chart import accounts_now
from quotes.queries.books.costs import settled_among
from quotes.queries.workshop import currency_decimals


@dataclass(frozen=True, slots=True)
class BillLineGiven:
    """A share of a bill, before tax. `build` is for whom it was bought; none for stock and overheads."""

    kind: str
    description: str
    net: Decimal
    build: Acceptance | None = None

    @property
    def number(self) -> str:
        """Number of the build's quote, blank without one."""
        return str(self.build.quote.number) if self.build else ""


@dataclass(frozen=True, slots=True)
class BillGiven:
    """A bill as it is to be written, checked."""

    supplier: str
    supplier_number: str
    on: date
    due_on: date | None
    lines: Sequence[BillLineGiven]
    tax: Decimal
    note: str = ""
    reverses: SupplierBill | None = None

    @property
    def net(self) -> Decimal:
        return sum((line.net for line in self.lines), ZERO)


@transaction.atomic
def kept_bill(given: BillGiven, *, by: User, now: datetime) -> SupplierBill:
    """Number and write a bill with its lines and post it."""
    bill = save_checked(
        SupplierBill(
            number=series_number(kind="S", on=given.on),
            supplier=given.supplier,
            supplier_number=given.supplier_number,
            on=given.on,
            due_on=given.due_on,
            net=given.net,
            tax=given.tax,
            gross=given.net + given.tax,
            note=given.note,
            entered_by=by,
            entered_at=now,
            reverses=given.reverses,
        )
    )
    rows = [
        BillLine(
            bill=bill,
            order=order,
            kind=line.kind,
            description=line.description.strip(),
            net=line.net,
            build=line.build,
        )
        for order, line in enumerate(given.lines)
    ]
    add_all(BillLine, [checked(row, exclude={"bill", "build"}) for row in rows])
    _post(bill, given, by, now)
    return bill


def _post(bill: SupplierBill, given: BillGiven, by: User, now: datetime) -> None:
    """Whether a build is finally invoiced is asked behind the gate, so that nobody invoices it meanwhile."""
    pass_the_gate()
    settled = settled_among({line.number for line in given.lines if line.number})
    workshop = Workshop.objects.get_or_default()
    back = given.tax if workshop.tax_style == TaxStyle.VALUE_ADDED_TAX else ZERO
    decimals = currency_decimals(workshop.currency)
    costs = costs_with_tax([line.net for line in given.lines], given.tax - back, decimals)
    entry = bill_entry(
        on=given.on,
        number=bill.number,
        supplier=given.supplier,
        supplier_number=given.supplier_number,
        costs=[
            BillCost(
                kind=cast(BillLineKind, line.kind),
                cost=cost,
                build=line.number,
                settled=line.number in settled,
            )
            for line, cost in zip(given.lines, costs, strict=True)
        ],
        tax=back,
        accounts=accounts_now(),
    )
    builds = {line.number: line.build for line in given.lines if line.build}
    post(entry=entry, by=by, now=now, bill=bill, builds=builds)
