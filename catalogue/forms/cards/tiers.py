"""The cards of tiers, and of the laws that their loads shorten life by."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.forms.inputs import (
    NAME,
    NOTE,
    SOURCE,
    Card,
    Grid,
    Group,
    Input,
    Section,
    band,
    causes,
    code_input,
    codes,
    entries_of,
)
from catalogue.models.choices import Block, RodType

WORK = Grid(
    "machine_work",
    _("Machine work"),
    _("Machine work"),
    (
        Input(
            "code",
            _("Work"),
            "choice",
            choices=entries_of("machine_work"),
            target="machine_work",
            required=True,
            width=6,
        ),
        Input("share", _("Share of the full count"), "number", required=True, width=3),
        Input("only_rod_type", _("Only on"), "choice", choices=RodType.choices, width=3),
    ),
    source="source",
)
CHANGES = Grid(
    "changes",
    _("Changes, in words"),
    _("Change"),
    (
        Input("what", _("What"), required=True, width=4),
        Input("text", _("To what"), required=True, width=8),
    ),
    says=_("On every engine type."),
    source="source",
    lies="map",
)
CHANGES_BY_TYPE = Grid(
    "changes_by_type",
    _("Otherwise on one engine type"),
    _("Change"),
    (
        Input(
            "engine_type",
            _("Engine type"),
            "choice",
            choices=entries_of("engine_types"),
            target="engine_types",
            required=True,
            width=4,
        ),
        Input("what", _("What"), required=True, width=4),
        Input("text", _("To what"), required=True, width=4),
    ),
    source="source",
    lies="map_by_type",
)
BREAKS = (
    ("compression", "compression"),
    ("cams", "cams"),
    ("porting", "porting"),
    ("weight", "weight"),
)
TIERS = Card(
    "tiers",
    (
        Section(
            _("What it is"),
            (
                code_input(),
                NAME,
                Input("rank", _("Rank"), "whole", says=_("0 the plainest, 2 the boldest."), required=True),
                Input("purpose", _("What it is for"), "long", source="source", width=6),
                Input("promise", _("What it promises"), "long", source="source", width=6),
            ),
        ),
        Section(
            _("What it changes"),
            (
                Input(
                    "compression_delta", _("Compression, points up"), "number", required=True, source="source"
                ),
                Input(
                    "rev_limit_delta_pct", _("Rev limit, up"), "number", "%", required=True, source="source"
                ),
                band("power_gain_pct", _("Power, up"), "%", "power_source", required=True),
                Input("power_note", _("On the power"), "long", width=6),
                Input("power_source", _("Where the power comes from"), "long", width=6),
                Input(
                    "breaks",
                    _("What a class must allow"),
                    "lines",
                    says=_("One a line: compression, cams, porting, weight."),
                    source="source",
                    width=6,
                ),
                CHANGES,
                CHANGES_BY_TYPE,
            ),
        ),
        Section(
            _("What that does to life"),
            (
                causes(
                    "life_factors",
                    _("Life left, by cause"),
                    says=_("1: as long as before. 0.5: half as long."),
                    source="source",
                    required=True,
                ),
            ),
        ),
        Section(
            _("What it renews"),
            (
                codes("renew", _("Renewed"), "components", "source"),
                codes("renew_if_due", _("Renewed if due"), "components", "source"),
                codes("recondition", _("Reconditioned"), "components", "source"),
                codes("performance_grade", _("In performance grade"), "components", "source"),
                Group(
                    _("Left in unless the cases are open anyway"),
                    "each",
                    (
                        Input(
                            "left_out_unless_opened:block",
                            _("On engines with"),
                            "choice",
                            choices=Block.choices,
                            width=6,
                        ),
                        Input(
                            "left_out_unless_opened:components",
                            _("These"),
                            "codes",
                            target="components",
                            width=6,
                        ),
                        Input("left_out_unless_opened:note", _("Why, and when not"), width=12),
                    ),
                    source="source",
                ),
            ),
        ),
        Section(
            _("What work it asks for"),
            (
                codes("operations", _("Bench work"), "operations", "source"),
                codes(
                    "operations_if_separate_block",
                    _("Besides, where the block comes off"),
                    "operations",
                    "source",
                ),
                WORK,
                Input("opens_bottom_end", _("Opens the bottom end"), "tick", width=6),
            ),
        ),
        Section(
            _("What it costs, as the trade says"),
            (
                band("cost_multiple", _("Times the plainest"), _("times"), "cost_multiple:source"),
                Input("cost_multiple:source", _("Where that comes from"), "long", width=12),
            ),
        ),
        Section(_("Note"), (SOURCE,)),
    ),
    optional=("left_out_unless_opened", "cost_multiple"),
)
LOAD_LAWS = Card(
    "load_laws",
    (
        Section(
            _("How life falls with it"),
            (
                code_input(_("Cause of wear")),
                NAME,
                band("exponent", _("Power of the load"), source="source", required=True),
            ),
            _(
                "Typical is what the sums use. A part that bears a tenth more load for the same life "
                "lasts 1.1 to this power as long."
            ),
        ),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
)
