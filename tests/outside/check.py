"""One number from outside the project, and how our own sums come to it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

Kind = Literal[
    "published, read", "published, value from memory", "arithmetic", "computed with the named library"
]
"""How far a number can be trusted: read at its source, remembered from it, worked out, or run."""


@dataclass(frozen=True)
class OutsideCheck:
    """`compute(*inputs)` goes through the project's own code and has to come to `expected`."""

    what: str
    compute: Callable[..., Sequence[float]]
    inputs: tuple[object, ...]
    expected: tuple[float, ...]
    tolerance: tuple[float, ...]
    source: str
    kind: Kind

    def __post_init__(self) -> None:
        if not len(self.expected) == len(self.tolerance) > 0:
            raise ValueError(f"{self.what}: a tolerance for each expected number")
        if not all(within > 0 for within in self.tolerance):
            raise ValueError(f"{self.what}: a tolerance is above 0")

    def got(self) -> tuple[float, ...]:
        """What our own sums make of the inputs."""
        found = tuple(float(value) for value in self.compute(*self.inputs))
        if len(found) != len(self.expected):
            raise ValueError(f"{self.what}: {len(found)} numbers where {len(self.expected)} are expected")
        return found
