"""What a way of building costs with what a stop would cost the customer, weighed with its chance."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import round_half_up
from quotes.calc.scope.case import Case


def expected_loss(case: Case, gross: Decimal, chance: float) -> Decimal | None:
    """Price of the planned service, and the loss as often as the engine stops; None where none was named."""
    loss = case.request.loss
    if loss is None:
        return None
    stopped = 1 - Decimal(str(round(chance, 6)))
    return round_half_up(gross + loss * stopped, case.shop.decimals)
