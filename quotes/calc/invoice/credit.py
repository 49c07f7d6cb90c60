"""Credit notes: an issued document taken back whole or in part, line by line, at the tax it bore."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.parts import Done, part_of
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
        return Draft(lines=lines, adjustments=_shares(sheet, credited, earlier))
    return Draft(
        lines=lines,
        adjustments=_of_amounts(sheet, _left(sheet, earlier)),
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


def _shares(
    sheet: InvoiceSheet, credited: Mapping[int, Decimal], earlier: Sequence[InvoiceSheet]
) -> tuple[Adjustment, ...]:
    """The document's allowances and charges in proportion to what is credited, at most what is left.

    Lines weigh by the size of their net whatever its sign: a return among them must not blow up the share.
    """
    whole = sum((abs(line.net) for line in sheet.lines), ZERO)
    part = sum((abs(line.net) * _portion(line, credited) for line in sheet.lines), ZERO)
    if not whole:
        return ()
    amounts = (round_half_up(one.amount * part / whole, sheet.decimals) for one in sheet.adjustments)
    return _of_amounts(sheet, (min(pair) for pair in zip(amounts, _left(sheet, earlier), strict=True)))


def _portion(line: InvoiceLine, credited: Mapping[int, Decimal]) -> Decimal:
    return credited.get(line.number, ZERO) / line.quantity if line.quantity else ZERO


def _left(sheet: InvoiceSheet, earlier: Sequence[InvoiceSheet]) -> Iterator[Decimal]:
    """What earlier credit notes have left of each allowance and charge of the document."""
    back: dict[tuple[str, str, str], Decimal] = {}
    for note in earlier:
        for one in note.adjustments:
            back[_same(one)] = back.get(_same(one), ZERO) + one.amount
    for one in sheet.adjustments:
        taken = min(back.get(_same(one), ZERO), one.amount)
        back[_same(one)] = back.get(_same(one), ZERO) - taken
        yield one.amount - taken


def _same(one: Adjustment) -> tuple[str, str, str]:
    return one.kind, one.reason, one.tax_code


def _of_amounts(sheet: InvoiceSheet, amounts: Iterable[Decimal]) -> tuple[Adjustment, ...]:
    """The document's allowances and charges at these amounts; those of nothing are dropped."""
    return tuple(
        one if one.amount == amount else one.model_copy(update={"amount": amount, "base": None})
        for one, amount in zip(sheet.adjustments, amounts, strict=True)
        if amount or one.amount == amount
    )
