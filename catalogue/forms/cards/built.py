"""The cards of duties and engine types."""

from __future__ import annotations

from catalogue.forms.inputs import (
    NAME,
    NOTE,
    SOURCE,
    Card,
    Grid,
    Input,
    Section,
    band,
    causes,
    code_input,
)
from catalogue.models.choices import Block, CaseSplit, GearboxAccess, GearboxOil, LifeBasis, RodType


def _oil(path: str, label: str) -> Input:
    return Input(path, label, width=6)


def _why(path: str) -> Input:
    return Input(path, "Why", "long", width=12)


DUTIES = Card(
    "duties",
    (
        Section(
            "The use",
            (
                code_input(),
                NAME,
                Input("basis", "Lives go by", "choice", choices=LifeBasis.choices, required=True),
                causes(
                    "severity",
                    "How hard it is",
                    says="1: as hard as the lives were written for.",
                    source="source",
                    required=True,
                ),
                Input("matters", "What matters", "lines", says="One a line.", source="source", width=12),
            ),
        ),
        Section(
            "One meeting",
            (
                band("event:miles", "Miles", "miles", "source"),
                band("event:hours", "Hours", "h", "source", required=True),
                Input("event:runs", "Runs", "whole"),
            ),
        ),
        Section(
            "One season",
            (
                Input("season:events", "Meetings", "whole", required=True, source="source"),
                band("season:miles", "Miles", "miles", "source"),
                band("season:hours", "Hours", "h", "source", required=True),
                Input("season:runs", "Runs", "whole"),
            ),
        ),
        Section(
            "Engine oil",
            (
                _oil("oil_with_gearbox", "Grade where the gearbox runs in it"),
                _why("oil_with_gearbox_why"),
                _oil("oil_without_gearbox", "Grade where the gearbox has its own"),
                _why("oil_without_gearbox_why"),
            ),
            "Stands with its reason on the quote and on the pick list. Grades that ship are common practice, "
            "no source; from memory. The maker's manual governs.",
        ),
        Section("Note", (SOURCE,)),
    ),
    optional=("event:miles", "season:miles"),
)
PIECES = Grid(
    "pieces",
    "Pieces",
    "Piece",
    (
        Input("piece", "Piece", required=True, width=4),
        Input("count", "How many", "whole", required=True, width=4),
    ),
    says="What the hours per piece count.",
    source="source",
    lies="map",
)


def _number(path: str, label: str, unit: str = "", source: str = "source") -> Input:
    return Input(path, label, "number", unit, required=True, source=source)


ENGINE_TYPES = Card(
    "engine_types",
    (
        Section(
            "The engine",
            (
                code_input(),
                NAME,
                Input("cylinders", "Cylinders", "whole", required=True, source="source"),
                Input("valves_per_cylinder", "Valves a cylinder", "whole", required=True, source="source"),
                _number("displacement_cc", "Volume", "cc"),
                _number("compression_ratio", "Compression", "to 1"),
                _number("rev_limit_rpm", "Rev limit", "a minute"),
                _number("crank_power_hp", "Power at the crank", "hp"),
            ),
        ),
        Section(
            "Geometry",
            (
                _number("bore_mm", "Bore", "mm"),
                _number("stroke_mm", "Stroke", "mm"),
                _number("rod_length_mm", "Rod length", "mm", "geometry_source"),
                _number("reciprocating_mass_g", "Reciprocating mass a cylinder", "g", "geometry_source"),
                _number("power_rpm", "Revs of peak power", "a minute", "geometry_source"),
                Input("geometry_source", "Where rods, mass and revs of power come from", "long", width=12),
            ),
        ),
        Section(
            "How it is made",
            (
                Input("block", "Block", "choice", choices=Block.choices, required=True, width=6),
                Input(
                    "case_split",
                    "How the cases part",
                    "choice",
                    choices=CaseSplit.choices,
                    required=True,
                    width=6,
                ),
                Input(
                    "gearbox_access",
                    "Way into the gearbox",
                    "choice",
                    choices=GearboxAccess.choices,
                    required=True,
                    width=6,
                ),
                Input(
                    "gearbox_oil",
                    "What the gearbox runs in",
                    "choice",
                    choices=GearboxOil.choices,
                    required=True,
                    width=6,
                ),
                Input("rod_type", "Rods", "choice", choices=RodType.choices, required=True, width=6),
                PIECES,
            ),
            "This decides which operations there are and what they need first.",
        ),
        Section("Note", (NOTE, SOURCE)),
    ),
)
