"""Whether a document may be credited, and what to do where it may not."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.said import say
from quotes.actions.books.refused import NotCreditable
from quotes.calc.invoice.credit import left_to_credit
from quotes.models import Invoice, InvoiceKind
from quotes.queries.books.build import build_account
from quotes.queries.books.credits import credits_of, sheet_of_invoice


def creditable(invoice: Invoice) -> dict[int, Decimal]:
    """Quantity of each line that may still be credited. NotCreditable says what to do where none may."""
    if invoice.kind == InvoiceKind.CREDIT:
        of = invoice.original.number if invoice.original else say("its original")
        raise NotCreditable(
            say(
                "{number} is itself a credit note, on {of}. A credit note is not credited: what it "
                "took back by mistake is asked for again with a new invoice.",
                number=invoice.number,
                of=of,
            )
        )
    left = left_to_credit(sheet_of_invoice(invoice), credits_of(invoice))
    if not left:
        raise NotCreditable(
            say("{number} is credited in full already: nothing is left of it.", number=invoice.number)
        )
    if invoice.kind == InvoiceKind.DEPOSIT:
        _refuse_taken_off(invoice)
    return left


def _refuse_taken_off(invoice: Invoice) -> None:
    """A deposit that an invoice has taken off would be given back twice."""
    assert invoice.build is not None
    taken = build_account(invoice.build, invoice.issued_on).asked.deposits
    if any(net for key, net in taken.items() if key.startswith(f"deposit:{invoice.number}:")):
        raise NotCreditable(
            say(
                "An invoice has taken {number} off already. Credit that invoice: the deposit is held "
                "again then, and can be credited or paid back.",
                number=invoice.number,
            )
        )
