"""Money as the books keep it: three decimals, for there are currencies that have them."""

from __future__ import annotations

from decimal import Decimal

from django.db import models
from django.db.models import F, Q
from django.db.models.functions import Round

DECIMALS = 3


def sum_of_money() -> models.DecimalField[Decimal, Decimal]:
    """A field for a sum in the workshop's currency, of either sign."""
    return models.DecimalField(max_digits=16, decimal_places=DECIMALS)


def net_and_tax_are_gross(name: str) -> models.CheckConstraint:
    """Refuses a row whose net and tax do not make its gross.

    SQLite reckons in floating point: 320.36 + 19.22 is not 339.58 there until it is rounded.
    """
    return models.CheckConstraint(
        condition=Q(gross=Round(F("net") + F("tax"), precision=DECIMALS)), name=name
    )
