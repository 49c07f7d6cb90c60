"""The card of components."""

from __future__ import annotations

from catalogue.calc.rows import CatalogueRows
from catalogue.forms.inputs import (
    NAME,
    NOTE,
    Card,
    Choices,
    Grid,
    Group,
    Input,
    Item,
    Section,
    band,
    by_type,
    causes,
    code_input,
    codes,
)
from catalogue.models.choices import Confidence, Consequence, JudgedBy, SingleUse


def _pieces(rows: CatalogueRows) -> Choices:
    named = dict.fromkeys(piece for kind in rows.engine_types for piece in kind.pieces)
    return [(piece, piece.replace("_", " ")) for piece in named]


def _reach(path: str) -> tuple[Item, ...]:
    """How it is reached and renewed."""
    return (
        codes(f"{path}:access_operations", "Reached by", "operations", source="sources:reach"),
        Input(
            f"{path}:access_any_of",
            "Or by one of",
            "ways",
            target="operations",
            says="One way a line.",
            source="sources:reach",
            width=6,
        ),
        codes(f"{path}:with_operations", "Goes with renewing it", "operations", source="sources:reach"),
        codes(f"{path}:machine_work", "Sent out when it is renewed", "machine_work", source="sources:reach"),
        Input(
            f"{path}:machine_work_piece",
            "Counted by",
            "choice",
            choices=_pieces,
            says="Where not by the work's own unit.",
        ),
        _recondition(f"{path}:recondition"),
    )


def _recondition(path: str) -> Group:
    """The level below renewal."""
    return Group(
        "In place of a new part",
        "each",
        (
            Input(f"{path}:machine_work", "Machine work", "codes", target="machine_work", width=6),
            Input(f"{path}:machine_work_quantity", "Pieces, if not all", "whole", width=2),
            Input(f"{path}:life_share", "Share of a new life", "number", width=2),
            Input(f"{path}:max_times", "Times at most", "whole", width=2),
            Input(f"{path}:source", "Where it comes from", width=12),
        ),
        source=f"{path}:source",
    )


MEASURED = Grid(
    "measured",
    "Measured",
    "Measurement",
    (
        Input("what", "What", required=True, width=6),
        Input("limit", "Limit", required=True, width=6),
        Input("rule", "How, and as new", width=6),
        Input("source", "Where it comes from", width=6),
    ),
)
COMPONENTS = Card(
    "components",
    (
        Section(
            "What it is",
            (
                code_input(),
                NAME,
                Input("group", "Group", required=True),
                by_type(
                    "count",
                    "Pieces in a set",
                    "whole",
                    says="Blank or 0: this engine type does not have it.",
                    source="sources:count",
                ),
                Input(
                    "single_use", "Once undone", "choice", choices=SingleUse.choices, required=True, width=6
                ),
                Input(
                    "consequence_class",
                    "If it goes",
                    "choice",
                    choices=Consequence.choices,
                    required=True,
                    width=6,
                ),
                Input(
                    "judged_by",
                    "Judged by",
                    "choice",
                    choices=JudgedBy.choices,
                    required=True,
                    source="sources:judged_by",
                    width=6,
                ),
                Input(
                    "judged_by_if_one_piece_roller_rod",
                    "With a pressed-up crank, judged by",
                    "choice",
                    choices=JudgedBy.choices,
                    source="sources:judged_by",
                    width=6,
                ),
                Input("service_item", "Changed at its own interval", "tick", width=6),
                Input(
                    "rider_hazards",
                    "Rider safety",
                    "lines",
                    says="One a line: may lock the rear wheel; may put oil on the tyre or track.",
                    source="sources:rider_hazards",
                    width=12,
                ),
            ),
        ),
        Section(
            "How long it lasts",
            (
                band("lives:miles", "Life on the track", "miles", "life_source"),
                band("lives:hours_mx", "Life in motocross", "h", "life_source"),
                Input("life_confidence", "How sure", "choice", choices=Confidence.choices, width=4),
                Input("life_source", "Where the lives come from", "long", width=8),
                causes(
                    "drivers",
                    "What wears it",
                    says="Shares that add up to 1.",
                    source="sources:drivers",
                ),
                Input(
                    "weibull_shape",
                    "Weibull shape",
                    "number",
                    says="1: by chance at any age. 3: by age.",
                    required=True,
                    source="sources:weibull_shape",
                    width=4,
                ),
                Input(
                    "stopping_share",
                    "Stops the engine without warning",
                    "number",
                    says="Share of its failures. Blank: its class's.",
                    source="sources:stopping_share",
                    width=4,
                ),
                Input(
                    "evidence_r0",
                    "Evidence, in failures",
                    "number",
                    says="Blank: the catalogue's.",
                    width=4,
                ),
                Input(
                    "grade_strength",
                    "Strength of the performance grade",
                    "number",
                    says="Load it bears for the same life; blank: as stock.",
                    source="sources:grade_strength",
                    width=4,
                ),
            ),
            "Habits of the trade, not failure data. Your own record is better.",
        ),
        Section(
            "What goes with it",
            (
                codes("companions_on_renewal", "Renewed with it", "components", "sources:companions"),
                codes("companions_on_damage", "When found damaged, also", "components", "sources:companions"),
                codes("recondition_on_renewal", "Reconditioned with it", "components", "sources:companions"),
                codes("comes_with", "Part of what is bought", "components", "sources:companions"),
                codes(
                    "comes_with_if_one_piece_roller_rod",
                    "Part of what is bought, with a pressed-up crank",
                    "components",
                    "sources:companions",
                ),
            ),
        ),
        Section("How it is reached", _reach("reach")),
        Section("With a pressed-up crank, instead", _reach("reach_if_one_piece_roller_rod")),
        Section(
            "How it fails",
            (
                Input("failure_modes", "How it fails", "lines", says="One a line.", width=6),
                codes("inspection_operations", "Looked at by", "operations"),
                MEASURED,
            ),
        ),
        Section("Note", (NOTE,)),
    ),
    optional=(
        "lives:miles",
        "lives:hours_mx",
        "reach:recondition",
        "reach_if_one_piece_roller_rod:recondition",
        "reach_if_one_piece_roller_rod",
    ),
)
