"""What is measured on every strip-down and has no limit in the catalogue. Common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from catalogue.calc.said import to_say


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity that is kept as it was found. `unit` is the one that it is kept in."""

    code: str
    component: str
    name: str
    unit: str
    when: Literal["as_received", "stripped"] = "stripped"
    in_places: bool = True


WITHOUT_LIMIT: tuple[Quantity, ...] = (
    Quantity("compression", "rings", to_say("compression"), "bar", "as_received"),
    Quantity("clearance_received", "shim", to_say("valve clearance as received"), "mm", "as_received"),
    Quantity("squish", "piston", to_say("squish"), "mm"),
    Quantity("spring_load_read", "valve_spring", to_say("seat load at the height built"), "N"),
    Quantity("bore_size", "bore", to_say("bore, the largest of six"), "mm"),
    Quantity("end_float", "crankshaft", to_say("crankshaft end float"), "mm", in_places=False),
    Quantity("journal_size", "crankshaft", to_say("journal diameter"), "mm"),
    Quantity(
        "timing_intake", "cam_intake", to_say("intake cam timing, lobe centre"), "degrees", in_places=False
    ),
    Quantity(
        "timing_exhaust", "cam_exhaust", to_say("exhaust cam timing, lobe centre"), "degrees", in_places=False
    ),
)
