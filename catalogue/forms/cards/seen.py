"""The cards of findings, events and limits."""

from __future__ import annotations

from catalogue.forms.inputs import (
    NAME,
    NOTE,
    SOURCE,
    Card,
    Group,
    Input,
    Section,
    code_input,
    codes,
    entries_of,
)
from catalogue.models.choices import BadWhen, FindingGrade, RodType

_ASKED = (
    codes("renew", "Renewed", "components", source="source"),
    codes("inspect_operations", "Looked at or cleaned", "operations", source="source"),
    codes("machine_work", "Sent out", "machine_work", source="source"),
    codes(
        "machine_work_if_needed", "Sent out if the measurement asks for it", "machine_work", source="source"
    ),
)
_INSTEAD = (
    codes("if_one_piece_roller_rod:renew", "Renewed instead", "components", source="source"),
    codes("if_one_piece_roller_rod:machine_work", "Sent out instead", "machine_work", source="source"),
)
FINDINGS = Card(
    "findings",
    (
        Section(
            "What is seen",
            (
                code_input(),
                Input("name", "What is seen", required=True, width=9),
                Input(
                    "component",
                    "On",
                    "choice",
                    choices=entries_of("components"),
                    target="components",
                    required=True,
                    width=4,
                ),
                Input(
                    "grade", "What it asks", "choice", choices=FindingGrade.choices, required=True, width=4
                ),
                Input("only_rod_type", "Only on", "choice", choices=RodType.choices, width=4),
                Input("cause", "Usual cause", "long", source="source", width=6),
                Input("tell_customer", "What the customer is told", "long", width=6),
                codes("any_of", "It must name one of", "components"),
            ),
        ),
        Section(
            "What it asks for",
            (
                Input(
                    "opens",
                    "Opens",
                    "choice",
                    choices=entries_of("operations"),
                    target="operations",
                    width=6,
                ),
                *_ASKED,
                codes("inspect_if_hard_hit", "Looked at after a hard hit", "operations"),
            ),
        ),
        Section("With a pressed-up crank", _INSTEAD),
        Section("Note", (NOTE, SOURCE)),
    ),
    optional=("if_one_piece_roller_rod",),
)
EVENTS = Card(
    "events",
    (
        Section(
            "What was told",
            (
                code_input(),
                NAME,
                Input(
                    "same_as_finding",
                    "Same as the finding",
                    "choice",
                    choices=entries_of("findings"),
                    target="findings",
                    width=6,
                ),
                Group(
                    "Above the rev limit",
                    "each",
                    (
                        Input("pct_over:low", "From", "number", "%"),
                        Input("pct_over:high", "To", "number", "%"),
                    ),
                    source="source",
                ),
            ),
        ),
        Section("What it asks for", _ASKED),
        Section("With a pressed-up crank", _INSTEAD),
        Section("Note", (NOTE, SOURCE)),
    ),
    optional=("pct_over", "if_one_piece_roller_rod"),
)
LIMITS = Card(
    "limits",
    (
        Section(
            "What is measured",
            (
                code_input(),
                Input("quantity", "Quantity", required=True, width=5),
                Input(
                    "component",
                    "On",
                    "choice",
                    choices=entries_of("components"),
                    target="components",
                    required=True,
                    width=4,
                ),
                Input("unit", "Unit", required=True),
                Input("bad_when", "Bad when", "choice", choices=BadWhen.choices, required=True),
                Input("basis", "Reckoned as", width=6),
                Input(
                    "alternative_to",
                    "In place of",
                    "choice",
                    choices=entries_of("limits"),
                    target="limits",
                    width=6,
                ),
            ),
        ),
        Section(
            "The figures",
            (
                Group(
                    "New",
                    "each",
                    (
                        Input("standard:low", "From", "number", required=True),
                        Input("standard:high", "To", "number", required=True),
                    ),
                    source="source",
                ),
                Input("watch", "Watch from", "number", source="source"),
                Input("limit", "Limit", "number", required=True, source="source"),
                Input(
                    "from_manual",
                    "These are the maker's manual's for the engine in hand",
                    "tick",
                    width=6,
                ),
            ),
            "The maker's service manual for the engine in hand governs.",
        ),
        Section("Note", (NOTE, SOURCE)),
    ),
)
