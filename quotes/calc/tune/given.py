"""What every sum of the tune takes: figures above nought, or a refusal that names the one that is not."""

from __future__ import annotations

import math


class BadGeometry(ValueError):
    """A figure that no engine can have; the message names it, its value and what is allowed."""


def above(least: float, **figures: float) -> None:
    """Every figure is finite and above `least`. Raises BadGeometry, which names the first that is not."""
    for name, value in figures.items():
        if not math.isfinite(value) or value <= least:
            raise BadGeometry(f"{name} is {value:g}: it must be above {least:g}")
