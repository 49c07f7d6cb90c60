"""The card of operations."""

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
    by_type,
    code_input,
    codes,
    entries_of,
)
from catalogue.models.choices import Attribute, KindOfWork, TakenRule

CONDITIONS = Grid(
    "requires_if",
    "Needs first, where it applies",
    "Condition",
    (
        Input("attribute", "Where the", "choice", choices=Attribute.choices, required=True, width=3),
        Input("equals", "is", required=True, width=3),
        Input("requires", "it needs", "codes", target="operations", width=6),
    ),
    says="Delivered: loose, in_chassis, or in_chassis_multi with more than one cylinder.",
    source="source",
)
CONSUMES = Grid(
    "consumes",
    "Takes",
    "Part taken",
    (
        Input(
            "component",
            "Component",
            "choice",
            choices=entries_of("components"),
            target="components",
            required=True,
            width=5,
        ),
        Input("quantity", "How many", says="full, as_measured or a number", required=True, width=3),
        Input("rule", "When", "choice", choices=TakenRule.choices, required=True, width=4),
    ),
    says="Single-use parts of the refit: this is how gaskets get on the quote.",
    source="source",
)
OPERATIONS = Card(
    "operations",
    (
        Section(
            "The work",
            (
                code_input(),
                NAME,
                Input("kind", "Kind of work", "choice", choices=KindOfWork.choices, required=True),
                codes("components", "Is about", "components"),
                Input("records", "What is recorded", "lines", says="One a line.", width=6),
            ),
        ),
        Section(
            "Hours",
            (
                by_type(
                    "hours",
                    "Fixed",
                    "hours",
                    unit="h",
                    says="Blank: this engine type does not have the operation.",
                    source="source",
                ),
                Group(
                    "For each piece besides",
                    "each",
                    (
                        Input(
                            "per_piece:piece",
                            "Piece",
                            says="As the engine types count them: cylinder, valve, rod.",
                        ),
                        Input("per_piece:hours", "Hours", "hours", "h"),
                    ),
                    source="source",
                ),
            ),
            "One competent builder, parts in hand, nothing seized. Within a quarter either way.",
        ),
        Section(
            "What comes before and after",
            (
                codes("requires", "Needs first", "operations"),
                CONDITIONS,
                codes("after", "Comes after, if both are done", "operations"),
                codes("undo", "Is undone by", "operations"),
                CONSUMES,
            ),
            "A loop, where two wait for each other, is refused.",
        ),
        Section("Note", (NOTE, SOURCE)),
    ),
    optional=("per_piece",),
)
