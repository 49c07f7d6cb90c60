"""Part of a line: its quantity, and allowances and charges that add up to those of the whole.

What is asked for in parts, or credited in parts, must come to the whole to the last unit. So each part takes
its share of every allowance and charge, rounded, and the part that completes the line takes what is left.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say, to_say
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.sums import line_net
from quotes.calc.invoice.values import Adjustment

MOST_ROUNDING = 5
"""Units by which the parts of a line may be off through rounding; more is another price, and left alone."""
REASON = to_say("So that the parts add up")


@dataclass(frozen=True, slots=True)
class Done:
    """What earlier parts of a line came to. `net` None: not known, so nothing is made to add up."""

    quantity: Decimal = ZERO
    net: Decimal | None = None


def part_of(whole: DraftLine, quantity: Decimal, decimals: int, done: Done = Done()) -> DraftLine:
    """`quantity` of a line of which `done` is done. The line itself where that is all of it."""
    if quantity == whole.quantity:
        return whole
    after = done.quantity + quantity
    adjustments = tuple(
        one.model_copy(
            update={"amount": _upto(one, after, whole, decimals) - _upto(one, done.quantity, whole, decimals)}
        )
        for one in whole.adjustments
    )
    part = whole.model_copy(update={"quantity": quantity, "adjustments": adjustments})
    if after == whole.quantity and done.net is not None:
        return _made_up(part, line_net(whole, decimals) - done.net, decimals)
    return part


def _upto(one: Adjustment, quantity: Decimal, whole: DraftLine, decimals: int) -> Decimal:
    """What the first `quantity` units bear of an allowance or charge."""
    return round_half_up(one.amount * quantity / whole.quantity, decimals)


def _made_up(part: DraftLine, wanted: Decimal, decimals: int) -> DraftLine:
    """The part with the units put on or taken off that rounding has left between it and what is wanted."""
    off = wanted - line_net(part, decimals)
    if not off or abs(off) > Decimal(MOST_ROUNDING).scaleb(-decimals):
        return part
    mend = Adjustment(kind="charge" if off > ZERO else "allowance", amount=abs(off), reason=say(REASON))
    return part.model_copy(update={"adjustments": (*part.adjustments, mend)})


def nearer_to_nought(first: Decimal, second: Decimal) -> Decimal:
    """Of two quantities of one line the smaller, whatever their sign; nought where they differ in sign."""
    if first * second <= ZERO:
        return ZERO
    return min(first, second, key=abs)
