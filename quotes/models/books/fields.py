"""Money as the books keep it: three decimals, for there are currencies that have them."""

from __future__ import annotations

from decimal import Decimal

from django.db import models


def sum_of_money() -> models.DecimalField[Decimal, Decimal]:
    """A field for a sum in the workshop's currency, of either sign."""
    return models.DecimalField(max_digits=16, decimal_places=3)
