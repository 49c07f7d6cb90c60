"""A payment as its receipt says it: what it settled, and what is left of each document after it."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, cast

from django.utils import translation

from catalogue.calc.money import ZERO
from quotes.calc.books.papers import PaymentReceipt, PaymentWay, SettledDocument
from quotes.models import OpenItem, Payment, Workshop
from quotes.queries.books.payment_list import settled_by
from quotes.queries.people import name_of
from quotes.queries.sheets import customer_party, workshop_party
from quotes.queries.workshop import currency_decimals


def receipt_of(payment: Payment) -> PaymentReceipt:
    """The receipt as it would be drawn now, in the customer's language."""
    with translation.override(payment.customer.reads):
        return _receipt(payment)


def _receipt(payment: Payment) -> PaymentReceipt:
    row = (
        Payment.objects.joined()
        .select_related("build__quote__engine", "job__engine", "taken_by")
        .get(pk=payment.pk)
    )
    workshop = Workshop.objects.get_or_default()
    build = row.build.quote if row.build else None
    engine = build.engine if build else row.job.engine if row.job else None
    return PaymentReceipt(
        kind=cast(PaymentWay, str(row.kind)),
        number=row.number,
        on=row.on,
        amount=row.amount,
        currency=row.currency,
        decimals=currency_decimals(row.currency),
        method=row.get_method_display(),
        reference=row.reference,
        note=row.note,
        workshop=workshop_party(workshop),
        customer=customer_party(row.customer),
        build=(build.number or "") if build else row.job.number if row.job else "",
        engine=engine.number if engine else "",
        deposit=row.deposit,
        reverses=row.reverses.number if row.reverses else "",
        settled=tuple(_settled(row)),
        taken_by=name_of(row.taken_by),
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=row.customer.reads,
    )


def _settled(payment: Payment) -> list[SettledDocument]:
    """What stands settled, document by document; what was undone again is not in it."""
    item = OpenItem.objects.filter(payment=payment).first()
    if item is None:
        return []
    sums: dict[OpenItem, Decimal] = {}
    for each in settled_by(item):
        other = each.credit if each.debit_id == item.pk else each.debit
        sums[other] = sums.get(other, ZERO) + each.amount
    return [
        SettledDocument(
            kind=str(other.get_kind_display()),
            number=other.number,
            on=other.on,
            amount=amount,
            left=abs(other.open_amount),
        )
        for other, amount in sums.items()
        if amount
    ]
