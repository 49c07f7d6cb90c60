"""A customer's yes as it is printed on a receipt."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from quotes.calc.ask.request import Value


class AcceptedValue(Value):
    """Who said yes to what, when, and up to what sum. Money is in the sheet's currency, with tax."""

    tier: str
    tier_name: str
    extras: tuple[str, ...]
    """Names of what was ticked on top of the option."""
    name: str
    right: str
    """In what right they said it: owner, for the team, ..."""
    telephone: str
    gross: Decimal
    """The sum that was shown beside the yes, extras in it."""
    limit_sum: Decimal
    """How much more may be spent without asking."""
    deposit: Decimal
    accepted_at: datetime
    """In the workshop's own time."""
    sheet_sha256: str
    """Fingerprint of what was shown."""
    agreed_terms: bool = True
    rider_safety_read: bool = False
