"""One thing that is wrong with a request."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that can't be worked with."""

    field: str
    value: str
    allowed: str

    def __str__(self) -> str:
        return f"{self.field}: {self.value}: {self.allowed}"


class BadRequest(ValueError):
    """A request that can't be worked out, with all its faults."""

    def __init__(self, found: tuple[Fault, ...]) -> None:
        self.faults = found
        super().__init__("; ".join(str(fault) for fault in found))
