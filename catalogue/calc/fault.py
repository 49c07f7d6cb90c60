"""One thing that can't be right in a catalogue: where it stands and why."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """`kind` of row, the `entry` by its code, the `field` in it and the `reason`."""

    kind: str
    entry: str
    field: str
    reason: str

    def __str__(self) -> str:
        return ": ".join(part for part in (self.kind, self.entry, self.field, self.reason) if part)
