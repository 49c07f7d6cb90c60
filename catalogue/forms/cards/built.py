"""The cards of duties and engine types."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext_lazy as _

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

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


def _oil(path: str, label: StrOrPromise) -> Input:
    return Input(path, label, width=6)


def _why(path: str) -> Input:
    return Input(path, _("Why"), "long", width=12)


DUTIES = Card(
    "duties",
    (
        Section(
            _("The use"),
            (
                code_input(),
                NAME,
                Input("basis", _("Lives go by"), "choice", choices=LifeBasis.choices, required=True),
                causes(
                    "severity",
                    _("How hard it is"),
                    says=_("1: as hard as the lives were written for."),
                    source="source",
                    required=True,
                ),
                Input(
                    "matters", _("What matters"), "lines", says=_("One a line."), source="source", width=12
                ),
            ),
        ),
        Section(
            _("One meeting"),
            (
                band("event:miles", _("Miles"), _("miles"), "source"),
                band("event:hours", _("Hours"), "h", "source", required=True),
                Input("event:runs", _("Runs"), "whole"),
            ),
        ),
        Section(
            _("One season"),
            (
                Input("season:events", _("Meetings"), "whole", required=True, source="source"),
                band("season:miles", _("Miles"), _("miles"), "source"),
                band("season:hours", _("Hours"), "h", "source", required=True),
                Input("season:runs", _("Runs"), "whole"),
            ),
        ),
        Section(
            _("Engine oil"),
            (
                _oil("oil_with_gearbox", _("Grade where the gearbox runs in it")),
                _why("oil_with_gearbox_why"),
                _oil("oil_without_gearbox", _("Grade where the gearbox has its own")),
                _why("oil_without_gearbox_why"),
            ),
            _(
                "Stands with its reason on the quote and on the pick list. Grades that ship are common "
                "practice, no source; from memory. The maker's manual governs."
            ),
        ),
        Section(_("Note"), (SOURCE,)),
    ),
    optional=("event:miles", "season:miles"),
)
PIECES = Grid(
    "pieces",
    _("Pieces"),
    _("Piece"),
    (
        Input("piece", _("Piece"), required=True, width=4),
        Input("count", _("How many"), "whole", required=True, width=4),
    ),
    says=_("What the hours per piece count."),
    source="source",
    lies="map",
)


def _number(path: str, label: StrOrPromise, unit: StrOrPromise = "", source: str = "source") -> Input:
    return Input(path, label, "number", unit, required=True, source=source)


ENGINE_TYPES = Card(
    "engine_types",
    (
        Section(
            _("The engine"),
            (
                code_input(),
                NAME,
                Input("cylinders", _("Cylinders"), "whole", required=True, source="source"),
                Input("valves_per_cylinder", _("Valves a cylinder"), "whole", required=True, source="source"),
                _number("displacement_cc", _("Volume"), _("cc")),
                _number("compression_ratio", _("Compression"), _("to 1")),
                _number("rev_limit_rpm", _("Rev limit"), _("a minute")),
                _number("crank_power_hp", _("Power at the crank"), _("hp")),
            ),
        ),
        Section(
            _("Geometry"),
            (
                _number("bore_mm", _("Bore"), "mm"),
                _number("stroke_mm", _("Stroke"), "mm"),
                _number("rod_length_mm", _("Rod length"), "mm", "geometry_source"),
                _number("reciprocating_mass_g", _("Reciprocating mass a cylinder"), "g", "geometry_source"),
                _number("power_rpm", _("Revs of peak power"), _("a minute"), "geometry_source"),
                Input("geometry_source", _("Where rods, mass and revs of power come from"), "long", width=12),
            ),
        ),
        Section(
            _("How it is made"),
            (
                Input("block", _("Block"), "choice", choices=Block.choices, required=True, width=6),
                Input(
                    "case_split",
                    _("How the cases part"),
                    "choice",
                    choices=CaseSplit.choices,
                    required=True,
                    width=6,
                ),
                Input(
                    "gearbox_access",
                    _("Way into the gearbox"),
                    "choice",
                    choices=GearboxAccess.choices,
                    required=True,
                    width=6,
                ),
                Input(
                    "gearbox_oil",
                    _("What the gearbox runs in"),
                    "choice",
                    choices=GearboxOil.choices,
                    required=True,
                    width=6,
                ),
                Input("rod_type", _("Rods"), "choice", choices=RodType.choices, required=True, width=6),
                PIECES,
            ),
            _("This decides which operations there are and what they need first."),
        ),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
)
