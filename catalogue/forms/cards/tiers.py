"""The cards of tiers, and of the laws that their loads shorten life by."""

from __future__ import annotations

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
    "Machine work",
    "Machine work",
    (
        Input(
            "code",
            "Work",
            "choice",
            choices=entries_of("machine_work"),
            target="machine_work",
            required=True,
            width=6,
        ),
        Input("share", "Share of the full count", "number", required=True, width=3),
        Input("only_rod_type", "Only on", "choice", choices=RodType.choices, width=3),
    ),
    source="source",
)
CHANGES = Grid(
    "changes",
    "Changes, in words",
    "Change",
    (
        Input("what", "What", required=True, width=4),
        Input("text", "To what", required=True, width=8),
    ),
    says="On every engine type.",
    source="source",
    lies="map",
)
CHANGES_BY_TYPE = Grid(
    "changes_by_type",
    "Otherwise on one engine type",
    "Change",
    (
        Input(
            "engine_type",
            "Engine type",
            "choice",
            choices=entries_of("engine_types"),
            target="engine_types",
            required=True,
            width=4,
        ),
        Input("what", "What", required=True, width=4),
        Input("text", "To what", required=True, width=4),
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
            "What it is",
            (
                code_input(),
                NAME,
                Input("rank", "Rank", "whole", says="0 the plainest, 2 the boldest.", required=True),
                Input("purpose", "What it is for", "long", source="source", width=6),
                Input("promise", "What it promises", "long", source="source", width=6),
            ),
        ),
        Section(
            "What it changes",
            (
                Input(
                    "compression_delta", "Compression, points up", "number", required=True, source="source"
                ),
                Input("rev_limit_delta_pct", "Rev limit, up", "number", "%", required=True, source="source"),
                band("power_gain_pct", "Power, up", "%", "power_source", required=True),
                Input("power_note", "On the power", "long", width=6),
                Input("power_source", "Where the power comes from", "long", width=6),
                Input(
                    "breaks",
                    "What a class must allow",
                    "lines",
                    says="One a line: compression, cams, porting, weight.",
                    source="source",
                    width=6,
                ),
                CHANGES,
                CHANGES_BY_TYPE,
            ),
        ),
        Section(
            "What that does to life",
            (
                causes(
                    "life_factors",
                    "Life left, by cause",
                    says="1: as long as before. 0.5: half as long.",
                    source="source",
                    required=True,
                ),
            ),
        ),
        Section(
            "What it renews",
            (
                codes("renew", "Renewed", "components", "source"),
                codes("renew_if_due", "Renewed if due", "components", "source"),
                codes("recondition", "Reconditioned", "components", "source"),
                codes("performance_grade", "In performance grade", "components", "source"),
                Group(
                    "Left in unless the cases are open anyway",
                    "each",
                    (
                        Input(
                            "left_out_unless_opened:block",
                            "On engines with",
                            "choice",
                            choices=Block.choices,
                            width=6,
                        ),
                        Input(
                            "left_out_unless_opened:components",
                            "These",
                            "codes",
                            target="components",
                            width=6,
                        ),
                        Input("left_out_unless_opened:note", "Why, and when not", width=12),
                    ),
                    source="source",
                ),
            ),
        ),
        Section(
            "What work it asks for",
            (
                codes("operations", "Bench work", "operations", "source"),
                codes(
                    "operations_if_separate_block",
                    "Besides, where the block comes off",
                    "operations",
                    "source",
                ),
                WORK,
                Input("opens_bottom_end", "Opens the bottom end", "tick", width=6),
            ),
        ),
        Section(
            "What it costs, as the trade says",
            (
                band("cost_multiple", "Times the plainest", "times", "cost_multiple:source"),
                Input("cost_multiple:source", "Where that comes from", "long", width=12),
            ),
        ),
        Section("Note", (SOURCE,)),
    ),
    optional=("left_out_unless_opened", "cost_multiple"),
)
LOAD_LAWS = Card(
    "load_laws",
    (
        Section(
            "How life falls with it",
            (
                code_input("Cause of wear"),
                NAME,
                band("exponent", "Power of the load", source="source", required=True),
            ),
            "Typical is what the sums use. A part that bears a tenth more load for the same life "
            "lasts 1.1 to this power as long.",
        ),
        Section("Note", (NOTE, SOURCE)),
    ),
)
