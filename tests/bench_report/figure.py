"""What a figure is: our way and the bare library's on the same work, at one size or at several."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import log
from typing import Any, Literal

Needs = Literal["nothing", "catalogue", "years"]
"""No database; one with the catalogue in it; one with so many quotes and all that came of them."""


@dataclass(frozen=True, slots=True)
class Extra:
    """A further value of a figure, in its unit, with the most that it may be."""

    what: str
    value: float
    unit: str
    goal: float | None = None

    @property
    def missed(self) -> bool:
        return self.goal is not None and self.value > self.goal


def no_more(work: Any) -> tuple[Extra, ...]:
    """For a figure that is told by its ratio."""
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure. `prepare` makes the work of a size; `ours` and `bare` do it; only these two are timed."""

    name: str
    what: str
    bare_is: str
    """Whose work the bare way is."""
    unit: str
    """What a size counts."""
    sizes: tuple[int, ...]
    prepare: Callable[[int], Any]
    ours: Callable[[Any], object]
    bare: Callable[[Any], object]
    more: Callable[[Any], tuple[Extra, ...]] = no_more
    needs: Needs = "nothing"
    runs: int = 5
    goal: float | None = None
    """The most that ours may be times the bare, at the largest size."""
    most_mb: int | None = None
    """The most memory of the whole process, at the largest size."""
    warmed: bool = False
    """Preparing the work has gone both ways already."""
    tells_itself: bool = False
    """Its ways give their seconds themselves, and are gone once."""
    by_processor: bool = False
    """Timed by the processor, where no other process has a part in it."""


@dataclass(frozen=True, slots=True)
class Timed:
    """A figure at one size, in seconds; memory in MB, where it was looked at."""

    size: int
    ours: float
    bare: float
    memory_mb: int | None = None
    more: tuple[Extra, ...] = ()

    @property
    def ratio(self) -> float:
        return self.ours / self.bare


@dataclass(frozen=True, slots=True)
class Result:
    """A figure on one database, or on none, from the smallest size to the largest."""

    figure: str
    database: str
    timed: tuple[Timed, ...]

    @property
    def exponent(self) -> float | None:
        """How our time grows with the size: 1 is in step with it, 0 not at all."""
        return exponent(self.timed[0], self.timed[-1])

    def missed(self, figure: Figure) -> list[str]:
        """The goals that it misses, each in a few words."""
        last, found = self.timed[-1], []
        if figure.goal is not None and last.ratio > figure.goal:
            found.append(f"{last.ratio:.2f} times the bare, goal {figure.goal:g}")
        if figure.most_mb is not None and last.memory_mb is not None and last.memory_mb > figure.most_mb:
            found.append(f"{last.memory_mb} MB, goal {figure.most_mb} MB")
        found += [
            f"{one.what} {f'{one.value:.3g} {one.unit}'.strip()}, goal {one.goal:g}"
            for timed in self.timed
            for one in timed.more
            if one.missed
        ]
        return found


def exponent(first: Timed, last: Timed) -> float | None:
    """The power of the size that leads from the first time to the last; None between equal sizes."""
    if last.size <= first.size:
        return None
    return log(last.ours / first.ours) / log(last.size / first.size)
