"""What one invoice takes of a build: all that is left, some kinds of lines, a share; and deposits off it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from decimal import Decimal
from typing import Protocol

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.from_yes import share
from quotes.calc.invoice.sums import draft_sums
from quotes.calc.shop import TaxCode


class DepositLeft(Protocol):
    """A deposit with what is left of it: by invoice `lines` and their `rounding`, by receipt only a sum."""

    @property
    def number(self) -> str: ...
    @property
    def left(self) -> Decimal: ...
    @property
    def lines(self) -> tuple[DraftLine, ...]: ...
    @property
    def rounding(self) -> Decimal: ...


def part_of_build(
    accepted: Sequence[DraftLine],
    left: Sequence[DraftLine],
    kinds: Collection[str] | None,
    share_pct: Decimal | None,
    decimals: int,
) -> tuple[DraftLine, ...]:
    """Lines of those kinds (None: all) that are left, or that share of what was accepted."""
    lines = tuple(left)
    if share_pct is not None:
        lines = share(accepted, share_pct, left=left, decimals=decimals)
    return tuple(line for line in lines if kinds is None or line.kind in kinds)


def with_deposits(
    draft: Draft, held: Sequence[DepositLeft], tax_codes: Mapping[str, TaxCode], decimals: int, *, last: bool
) -> Draft:
    """The draft with deposits taken off: all of them from the last invoice, even below nought.

    From an earlier one only as much as it asks for, the oldest deposit first, so that nothing is owed back
    while work is still to be invoiced.
    """
    room = draft_sums(draft, tax_codes, decimals).gross
    lines, prepayments, rounding = list(draft.lines), dict(draft.prepayments), draft.rounding
    for deposit in held:
        if deposit.left <= ZERO:
            continue
        taken = deposit.left if last else min(deposit.left, max(room, ZERO))
        room -= taken
        if not taken:
            continue
        if not deposit.lines:
            prepayments[deposit.number] = taken
        elif taken == deposit.left:
            lines += deposit.lines
            rounding += deposit.rounding
        else:
            lines += _portion(deposit, taken, decimals)
    return draft.model_copy(update={"lines": tuple(lines), "prepayments": prepayments, "rounding": rounding})


def _portion(deposit: DepositLeft, taken: Decimal, decimals: int) -> list[DraftLine]:
    """So much of each line as the sum with tax that is taken is of all that is left."""
    nets = (round_half_up(line.unit_price * taken / deposit.left, decimals) for line in deposit.lines)
    parts = zip(deposit.lines, nets, strict=True)
    return [line.model_copy(update={"unit_price": net}) for line, net in parts if net]
