"""What a promised chance is made of, kept with it so that what was really run can be held against it."""

from __future__ import annotations

from quotes.calc.ask.request import Value

PARTS = 10
"""The planned service is kept in so many equal parts."""


class Exposure(Value):
    """Hazards of one build over the planned service, never opened on the way.

    The chance of that is `exp(-(by_wear + by_hands))`.
    """

    by_wear: float
    """With the shop factor counted that stood then."""
    by_hands: float
    """Faults of our own in assembly, which the shop factor does not scale."""
    reached: tuple[float, ...]
    """The share of `by_wear` that has come by the end of each tenth of the planned service."""
