"""What the site has told people it kept, and what stands in the record: the two put side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sent:
    """A form that was sent. `mark` tells what it makes from all else; `told`: the answer said it is kept."""

    what: str
    mark: str
    told: bool

    def __str__(self) -> str:
        return f"{self.what} {self.mark}"


@dataclass(frozen=True, slots=True)
class Standing:
    """How often something stands in the record, and whether all that belongs to it does."""

    times: int
    whole: bool = True


@dataclass(frozen=True, slots=True)
class Verdict:
    """What came of many forms; each fault by its name."""

    told: int
    untold: int
    lost: tuple[str, ...] = ()
    doubled: tuple[str, ...] = ()
    halves: tuple[str, ...] = ()

    @property
    def faults(self) -> tuple[str, ...]:
        named = (("lost", self.lost), ("doubled", self.doubled), ("half kept", self.halves))
        return tuple(f"{one}: {fault}" for fault, those in named for one in those)


def judged(sent: Iterable[Sent], standing: Callable[[str, str], Standing]) -> Verdict:
    """What was told stands once; what nobody was told of at most once; whatever stands, stands whole."""
    told: dict[tuple[str, str], bool] = {}
    for one in sent:
        told[one.what, one.mark] = told.get((one.what, one.mark), False) or one.told
    lost, doubled, halves = [], [], []
    for (what, mark), was_told in told.items():
        found = standing(what, mark)
        if was_told and not found.times:
            lost.append(f"{what} {mark}")
        if found.times > 1:
            doubled.append(f"{what} {mark}")
        if not found.whole:
            halves.append(f"{what} {mark}")
    known = sum(told.values())
    return Verdict(known, len(told) - known, tuple(lost), tuple(doubled), tuple(halves))
