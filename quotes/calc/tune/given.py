"""What every sum of the tune takes: figures above nought, or a refusal that names the one that is not."""

from __future__ import annotations

import math

from catalogue.calc.said import say


class BadGeometry(ValueError):
    """A figure that no engine can have; the message names it, its value and what is allowed."""


def above(least: float, **figures: float) -> None:
    """Every figure is finite and above `least`. Raises BadGeometry, which names the first that is not."""
    for name, value in figures.items():
        if not math.isfinite(value) or value <= least:
            raise BadGeometry(
                say(
                    "{name} is {value}: it must be above {least}",
                    name=name,
                    value=f"{value:g}",
                    least=f"{least:g}",
                )
            )
