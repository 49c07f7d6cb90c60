"""The card of components."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.calc.rows import CatalogueRows
from catalogue.calc.said import say
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
    return [(piece, say(piece.replace("_", " "))) for piece in named]


def _reach(path: str) -> tuple[Item, ...]:
    """How it is reached and renewed."""
    return (
        codes(f"{path}:access_operations", _("Reached by"), "operations", source="sources:reach"),
        Input(
            f"{path}:access_any_of",
            _("Or by one of"),
            "ways",
            target="operations",
            says=_("One way a line."),
            source="sources:reach",
            width=6,
        ),
        codes(f"{path}:with_operations", _("Goes with renewing it"), "operations", source="sources:reach"),
        codes(
            f"{path}:machine_work", _("Sent out when it is renewed"), "machine_work", source="sources:reach"
        ),
        Input(
            f"{path}:machine_work_piece",
            _("Counted by"),
            "choice",
            choices=_pieces,
            says=_("Where not by the work's own unit."),
        ),
        _recondition(f"{path}:recondition"),
    )


def _recondition(path: str) -> Group:
    """The level below renewal."""
    return Group(
        _("In place of a new part"),
        "each",
        (
            Input(f"{path}:machine_work", _("Machine work"), "codes", target="machine_work", width=6),
            Input(f"{path}:machine_work_quantity", _("Pieces, if not all"), "whole", width=2),
            Input(f"{path}:life_share", _("Share of a new life"), "number", width=2),
            Input(f"{path}:max_times", _("Times at most"), "whole", width=2),
            Input(f"{path}:source", _("Where it comes from"), width=12),
        ),
        source=f"{path}:source",
    )


MEASURED = Grid(
    "measured",
    _("Measured"),
    _("Measurement"),
    (
        Input("what", _("What"), required=True, width=6),
        Input("limit", _("Limit"), required=True, width=6),
        Input("rule", _("How, and as new"), width=6),
        Input("source", _("Where it comes from"), width=6),
    ),
)
COMPONENTS = Card(
    "components",
    (
        Section(
            _("What it is"),
            (
                code_input(),
                NAME,
                Input("group", _("Group"), required=True),
                by_type(
                    "count",
                    _("Pieces in a set"),
                    "whole",
                    says=_("Blank or 0: this engine type does not have it."),
                    source="sources:count",
                ),
                Input(
                    "single_use",
                    _("Once undone"),
                    "choice",
                    choices=SingleUse.choices,
                    required=True,
                    width=6,
                ),
                Input(
                    "consequence_class",
                    _("If it goes"),
                    "choice",
                    choices=Consequence.choices,
                    required=True,
                    width=6,
                ),
                Input(
                    "judged_by",
                    _("Judged by"),
                    "choice",
                    choices=JudgedBy.choices,
                    required=True,
                    source="sources:judged_by",
                    width=6,
                ),
                Input(
                    "judged_by_if_one_piece_roller_rod",
                    _("With a pressed-up crank, judged by"),
                    "choice",
                    choices=JudgedBy.choices,
                    source="sources:judged_by",
                    width=6,
                ),
                Input("service_item", _("Changed at its own interval"), "tick", width=6),
                Input(
                    "rider_hazards",
                    _("Rider safety"),
                    "lines",
                    says=_("One a line: may lock the rear wheel; may put oil on the tyre or track."),
                    source="sources:rider_hazards",
                    width=12,
                ),
            ),
        ),
        Section(
            _("How long it lasts"),
            (
                band("lives:miles", _("Life on the track"), _("miles"), "life_source"),
                band("lives:hours_mx", _("Life in motocross"), "h", "life_source"),
                Input("life_confidence", _("How sure"), "choice", choices=Confidence.choices, width=4),
                Input("life_source", _("Where the lives come from"), "long", width=8),
                causes(
                    "drivers",
                    _("What wears it"),
                    says=_("Shares that add up to 1."),
                    source="sources:drivers",
                ),
                Input(
                    "weibull_shape",
                    _("Weibull shape"),
                    "number",
                    says=_("1: by chance at any age. 3: by age."),
                    required=True,
                    source="sources:weibull_shape",
                    width=4,
                ),
                Input(
                    "stopping_share",
                    _("Stops the engine without warning"),
                    "number",
                    says=_("Share of its failures. Blank: its class's."),
                    source="sources:stopping_share",
                    width=4,
                ),
                Input(
                    "evidence_r0",
                    _("Evidence, in failures"),
                    "number",
                    says=_("Blank: the catalogue's."),
                    width=4,
                ),
                Input(
                    "grade_strength",
                    _("Strength of the performance grade"),
                    "number",
                    says=_("Load it bears for the same life; blank: as stock."),
                    source="sources:grade_strength",
                    width=4,
                ),
            ),
            _("Habits of the trade, not failure data. Your own record is better."),
        ),
        Section(
            _("What goes with it"),
            (
                codes("companions_on_renewal", _("Renewed with it"), "components", "sources:companions"),
                codes(
                    "companions_on_damage", _("When found damaged, also"), "components", "sources:companions"
                ),
                codes(
                    "recondition_on_renewal", _("Reconditioned with it"), "components", "sources:companions"
                ),
                codes("comes_with", _("Part of what is bought"), "components", "sources:companions"),
                codes(
                    "comes_with_if_one_piece_roller_rod",
                    _("Part of what is bought, with a pressed-up crank"),
                    "components",
                    "sources:companions",
                ),
            ),
        ),
        Section(_("How it is reached"), _reach("reach")),
        Section(_("With a pressed-up crank, instead"), _reach("reach_if_one_piece_roller_rod")),
        Section(
            _("How it fails"),
            (
                Input("failure_modes", _("How it fails"), "lines", says=_("One a line."), width=6),
                codes("inspection_operations", _("Looked at by"), "operations"),
                MEASURED,
            ),
        ),
        Section(_("Note"), (NOTE,)),
    ),
    optional=(
        "lives:miles",
        "lives:hours_mx",
        "reach:recondition",
        "reach_if_one_piece_roller_rod:recondition",
        "reach_if_one_piece_roller_rod",
    ),
)
