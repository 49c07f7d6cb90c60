"""The foot of the ladder: leaving the engine as it is, where that stands on the same scale as the steps."""

from __future__ import annotations

from decimal import Decimal

from quotes.calc.sheet.values import Comparison, Option


def over_leaving(option: Option, comparison: Comparison) -> Decimal | None:
    """How much dearer the first step is than leaving it.

    None where leaving it is no step below: it costs as much or finishes as often, or the steps are judged up
    to a first opening and not over the whole service.
    """
    left = comparison.leave_it
    if not option.ladder or option.season is not None or option.chance.to_first_opening is not None:
        return None
    first = option.ladder[0]
    if left.gross >= first.gross or left.chance.value >= first.chance:
        return None
    return first.gross - left.gross
