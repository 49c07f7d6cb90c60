"""What of a yes was done until it was called off: parts bought, machine work sent out, hours clocked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.parts import part_of
from quotes.calc.invoice.sums import line_net

SHARE_DECIMALS = 4


def bought_so_far(
    lines: Iterable[DraftLine], pieces: Mapping[str, Decimal], decimals: int
) -> tuple[DraftLine, ...]:
    """Bench work as it was accepted, for the clock to say how much of it; of the rest what was bought.

    `pieces` says by key how many were bought or sent out: no more is owed than was accepted. Consumables, and
    what else is not counted in pieces, are left out; so is what extra work took off, which was not bought.
    """
    kept = []
    for line in lines:
        if line.quantity <= ZERO:
            continue
        done = line.quantity if line.kind == "labour" else min(pieces.get(line.key, ZERO), line.quantity)
        if done > ZERO:
            kept.append(part_of(line, done, decimals))
    return tuple(kept)


def discount_so_far(
    accepted: Sequence[DraftLine], done: Iterable[DraftLine], decimals: int
) -> tuple[DraftLine, ...]:
    """The discount that was agreed, in the share of its lines that was done."""
    discounts = [line for line in accepted if line.kind == "discount"]
    whole = sum((line_net(line, decimals) for line in accepted if line.kind != "discount"), ZERO)
    if not discounts or whole <= ZERO:
        return ()
    share = min(sum((line_net(line, decimals) for line in done), ZERO) / whole, Decimal(1))
    parts = [(line, round_half_up(line.quantity * share, SHARE_DECIMALS)) for line in discounts]
    return tuple(part_of(line, quantity, decimals) for line, quantity in parts if quantity)
