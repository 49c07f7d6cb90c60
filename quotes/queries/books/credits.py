"""Credit notes on a document: those issued, and what a draft of another comes to beside them."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.invoice.credit import MoreThanIsLeft, credit_draft, left_to_credit
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import Invoice


def sheet_of_invoice(invoice: Invoice) -> InvoiceSheet:
    """The frozen sheet of an issued document."""
    return InvoiceSheet.model_validate(invoice.sheet)


def credits_of(invoice: Invoice) -> tuple[InvoiceSheet, ...]:
    """The sheets of the credit notes issued on a document, in order."""
    return tuple(sheet_of_invoice(note) for note in Invoice.objects.filter(original=invoice).order_by("pk"))


def credited_in_full(invoice: Invoice) -> bool:
    """Whether credit notes have taken back all of a document."""
    return not left_to_credit(sheet_of_invoice(invoice), credits_of(invoice))


def credit_content(original: Invoice, given: Draft) -> Draft:
    """A draft credit note as it would be issued now: of what is given only quantities and words count.

    Prices and taxes are those of the original, and the part that completes a line takes what rounding left.
    BadRequest where a line is none of the original's, or asks for more than is left of it.
    """
    sheet = sheet_of_invoice(original)
    if faults := tuple(_strange(sheet, given)):
        raise BadRequest(faults)
    quantities = {line.of_line: line.quantity for line in given.lines if line.of_line is not None}
    try:
        made = credit_draft(sheet, quantities, credits_of(original))
    except MoreThanIsLeft as more:
        raise BadRequest((_more(given.lines, sheet, more.line, more.left),)) from None
    return made.model_copy(update={"reason": given.reason, "note": given.note})


def _strange(sheet: InvoiceSheet, given: Draft) -> Iterator[Fault]:
    left = {line.number for line in sheet.lines}
    for number, line in enumerate(given.lines, 1):
        if line.of_line not in left:
            said = say(
                "a line of {number}, once: it has {count}", number=sheet.number, count=len(sheet.lines)
            )
            yield Fault(f"lines.{number}.of_line", line.description, said)
        else:
            left.discard(line.of_line)


def _more(lines: tuple[DraftLine, ...], sheet: InvoiceSheet, of_line: int, left: Decimal) -> Fault:
    number = next(place for place, line in enumerate(lines, 1) if line.of_line == of_line)
    quantity = lines[number - 1].quantity
    was = next(line for line in sheet.lines if line.number == of_line)
    said = say(
        "at most {left} {unit}: that is left of {description} on {number}",
        left=f"{left:f}",
        unit=was.unit,
        description=was.description,
        number=sheet.number,
    )
    return Fault(f"lines.{number}.quantity", f"{quantity:f}", said)
