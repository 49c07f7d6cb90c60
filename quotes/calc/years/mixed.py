"""Figures that look drawn and are the same every time: no chance is in them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

BITS = 64
WHOLE = 1 << BITS
STEP = 0x9E3779B97F4A7C15
"""The golden ratio in 64 bits; with the two factors below the mixer known as splitmix64."""

One = TypeVar("One")


def mixed(*what: int) -> int:
    """A whole number below 2 to the 64 that these numbers lead to, and no other way back."""
    state = 0
    for each in what:
        state = (state * 31 + each + STEP) % WHOLE
        state = ((state ^ (state >> 30)) * 0xBF58476D1CE4E5B9) % WHOLE
        state = ((state ^ (state >> 27)) * 0x94D049BB133111EB) % WHOLE
        state ^= state >> 31
    return state


def one_of(many: Sequence[One], *what: int) -> One:
    """One of many, each as often as any other."""
    return many[mixed(*what) % len(many)]
