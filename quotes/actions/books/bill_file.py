"""Entering the bills of a file: all of them or none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from quotes.actions.books.entering_bills import enter_bill
from quotes.actions.books.keeping_bills import BillLineGiven
from quotes.calc.books.given_bills import BillGiven
from quotes.models import Acceptance, SupplierBill


@transaction.atomic
def enter_bills(
    *, bills: Sequence[BillGiven], builds: Mapping[str, Acceptance], by: User, now: datetime
) -> list[SupplierBill]:
    """Enter each bill; a refusal of one leaves none. `builds` by their quote's number, in capitals."""
    return [
        enter_bill(
            supplier=bill.supplier,
            supplier_number=bill.number,
            on=bill.on,
            due_on=bill.due_on,
            lines=[
                BillLineGiven(
                    kind=line.kind,
                    description=line.description,
                    net=line.net,
                    build=builds.get(line.build.upper()),
                )
                for line in bill.lines
            ],
            tax=bill.tax,
            by=by,
            now=now,
        )
        for bill in bills
    ]
