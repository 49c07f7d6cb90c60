"""Credit notes: an issued document taken back whole or in part, line by line, at the tax it bore."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.parts import Done, part_of, scaled
from quotes.calc.invoice.values import Adjustment, InvoiceLine, InvoiceSheet


class MoreThanIsLeft(ValueError):
    """More of a line is to be credited than was asked for and not credited yet."""

    def __init__(self, line: int, asked: Decimal, left: Decimal) -> None:
        self.line, self.asked, self.left = line, asked, left
        super().__init__(f"line {line}: {asked} can't be credited, {left} is left")


class CreditOfCredit(ValueError):
    """A credit note is not credited: what it took back is asked for by a new invoice."""


def left_to_credit(sheet: InvoiceSheet, earlier: Iterable[InvoiceSheet] = ()) -> dict[int, Decimal]:
    """Quantity of each line of the original that no credit note has taken back; lines with nothing left
    are not in it. `earlier` are the credit notes on it. Given to `credit_draft` it credits all the rest.
    """
    done = _done(earlier)
    left = {line.number: line.quantity - _of(done, line).quantity for line in sheet.lines}
    return {number: quantity for number, quantity in left.items() if quantity}


def credit_draft(
    sheet: InvoiceSheet, credited: Mapping[int, Decimal], earlier: Sequence[InvoiceSheet] = ()
) -> Draft:
    """A credit note on an issued document: by line number the quantity to credit, in the line's own sign.

    Sums are positive as those of the original. Lines keep their tax. Where nothing is left afterwards, what
    the document's allowances and charges, prepayments and rounding still hold is in it, so that all credit
    notes together come to the original. Raises MoreThanIsLeft, CreditOfCredit.
    """
    if sheet.kind == "credit_note":
        raise CreditOfCredit(f"{sheet.number} is a credit note itself")
    left = left_to_credit(sheet, earlier)
    for number, quantity in credited.items():
        _refuse(number, quantity, left.get(number, ZERO))
    done = _done(earlier)
    lines = tuple(
        part_of(_whole(line), credited[line.number], sheet.decimals, _of(done, line))
        for line in sheet.lines
        if credited.get(line.number)
    )
    if {number: quantity for number, quantity in credited.items() if quantity} != left:
        return Draft(lines=lines, adjustments=_shares(sheet, credited))
    return Draft(
        lines=lines,
        adjustments=_rest(sheet, earlier),
        prepayments={one.receipt: one.amount for one in sheet.prepayments},
        rounding=sheet.sums.rounding,
    )


def _refuse(number: int, asked: Decimal, left: Decimal) -> None:
    if abs(asked) > abs(left) or asked * left < ZERO:
        raise MoreThanIsLeft(number, asked, left)


def _whole(line: InvoiceLine) -> DraftLine:
    return DraftLine(
        key=line.key,
        kind=line.kind,
        description=line.description,
        note=line.note,
        quantity=line.quantity,
        unit=line.unit,
        unit_price=line.unit_price,
        price_base=line.price_base,
        adjustments=line.adjustments,
        tax_code=line.tax_code,
        component=line.component,
        own_part=line.own_part,
        taxed=line.taxed,
        of_line=line.number,
    )


def _done(earlier: Iterable[InvoiceSheet]) -> dict[int, Done]:
    done: dict[int, Done] = {}
    for note in earlier:
        for line in note.lines:
            if line.of_line is not None:
                before = done.get(line.of_line, Done(ZERO, ZERO))
                net = (before.net or ZERO) + line.net
                done[line.of_line] = Done(before.quantity + line.quantity, net)
    return done


def _of(done: Mapping[int, Done], line: InvoiceLine) -> Done:
    return done.get(line.number, Done(ZERO, ZERO))


def _shares(sheet: InvoiceSheet, credited: Mapping[int, Decimal]) -> tuple[Adjustment, ...]:
    """The document's allowances and charges in the proportion of the quantities credited."""
    whole = sheet.sums.line_total
    if not sheet.adjustments or not whole:
        return ()
    part = sum(
        (line.net * credited.get(line.number, ZERO) / line.quantity for line in sheet.lines if line.quantity),
        ZERO,
    )
    return tuple(scaled(sheet.adjustments, part, whole, sheet.decimals))


def _rest(sheet: InvoiceSheet, earlier: Sequence[InvoiceSheet]) -> tuple[Adjustment, ...]:
    """The document's allowances and charges, less what earlier credit notes took back of each."""
    if not earlier:
        return sheet.adjustments
    back: dict[tuple[str, str, str], Decimal] = {}
    for note in earlier:
        for one in note.adjustments:
            same = (one.kind, one.reason, one.tax_code)
            back[same] = back.get(same, ZERO) + one.amount
    found: list[Adjustment] = []
    for one in sheet.adjustments:
        same = (one.kind, one.reason, one.tax_code)
        taken = min(back.get(same, ZERO), one.amount)
        back[same] = back.get(same, ZERO) - taken
        if one.amount - taken:
            found.append(one.model_copy(update={"amount": one.amount - taken, "base": None}))
    return tuple(found)
