"""Deposits of one build, each with what no invoice has taken off yet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.invoice.deposits import deposit_lines, deposit_rounding
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.tally import Tally
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import Invoice, Payment, PaymentKind
from quotes.queries.books.account import DepositOf


def by_invoice(documents: Mapping[Invoice, InvoiceSheet], asked: Tally) -> Iterator[DepositOf]:
    """Deposit invoices among the documents of a build, less their credit notes and what was taken off."""
    for row, sheet in documents.items():
        if row.kind != "deposit_invoice":
            continue
        credits = [other for note, other in documents.items() if note.original_id == row.pk]
        sheets = (sheet, *credits)
        lines = tuple(_left(line, asked.deposits) for line in deposit_lines(sheets))
        lines = tuple(line for line in lines if line.unit_price > ZERO)
        item = getattr(row, "item", None)
        yield DepositOf(
            by="invoice",
            number=row.number,
            pk=row.pk,
            on=row.issued_on,
            customer_id=row.customer_id,
            customer=sheet.buyer.name,
            asked=sum((one.sign * one.sums.due for one in sheets), ZERO),
            left=_with_tax(lines, sheet.decimals),
            lines=lines,
            rounding=deposit_rounding(sheets) if lines else ZERO,
            unpaid=item.open_amount if item else ZERO,
        )


def _left(line: DraftLine, taken: Mapping[str, Decimal]) -> DraftLine:
    net = max(line.unit_price - taken.get(line.key, ZERO), ZERO)
    return line.model_copy(update={"unit_price": net})


def _with_tax(lines: Iterable[DraftLine], decimals: int) -> Decimal:
    return sum(
        (
            line.unit_price
            + round_half_up(line.unit_price * (line.taxed.rate_pct if line.taxed else ZERO) / 100, decimals)
            for line in lines
        ),
        ZERO,
    )


def by_receipt(
    payments: Iterable[Payment], asked: Tally, elsewhere: Mapping[str, Decimal]
) -> Iterator[DepositOf]:
    """Deposits taken by receipt that stand; what was paid back comes off a customer's latest first.

    `elsewhere` is what an invoice that rests on no build, such as a strip-down's, has taken off, by receipt.
    """
    standing = [row for row in payments if getattr(row, "reversed_by", None) is None]
    back: dict[int, Decimal] = {}
    for row in standing:
        if row.kind == PaymentKind.REFUND:
            back[row.customer_id] = back.get(row.customer_id, ZERO) + row.amount
    received = [row for row in standing if row.kind == PaymentKind.RECEIVED]
    found = []
    for row in reversed(received):
        used = asked.receipts.get(row.number, ZERO) + elsewhere.get(row.number, ZERO)
        held = row.amount - used
        returned = min(max(held, ZERO), back.get(row.customer_id, ZERO))
        back[row.customer_id] = back.get(row.customer_id, ZERO) - returned
        found.append(
            DepositOf(
                by="receipt",
                number=row.number,
                pk=row.pk,
                on=row.on,
                customer_id=row.customer_id,
                customer=row.customer.name,
                asked=row.amount - returned,
                left=held - returned,
            )
        )
    yield from reversed(found)
