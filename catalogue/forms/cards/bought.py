"""The cards of parts, suppliers, machine work and where values come from."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.rows import CatalogueRows
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
    code_input,
    codes,
    entries_of,
)
from catalogue.models.choices import Confidence, Grade, SupplierKind, WorkUnit


def _deliverers(rows: CatalogueRows) -> Sequence[tuple[str, str]]:
    return [(row.code, row.name) for row in rows.suppliers if row.kind == "parts"]


def _shops(rows: CatalogueRows) -> Sequence[tuple[str, str]]:
    return [(row.code, row.name) for row in rows.suppliers if row.kind == "machine_work"]


OFFERS = Grid(
    "offers",
    "Offers",
    "Offer",
    (
        Input(
            "supplier", "Supplier", "choice", choices=_deliverers, target="suppliers", required=True, width=4
        ),
        Input("cost", "Cost", "money", required=True, width=2),
        Input("pack", "In lots of", "whole", width=2),
        Input("minimum_quantity", "At least", "whole", width=2),
        Input("preferred", "Take this one", "tick", width=2),
        Input("lead_typical_days", "Days to arrive", "number", required=True, width=2),
        Input("lead_slow_days", "Slow, 9 in 10", "number", required=True, width=2),
        Input("note", "Note", width=4),
        Input("source", "Where it comes from", width=4),
    ),
    says="What each supplier asks for one unit, before tax. Working days.",
)
PARTS = Card(
    "parts",
    (
        Section(
            "The part",
            (
                code_input("Part number", "number"),
                Input(
                    "engine_type",
                    "Engine type",
                    "choice",
                    choices=entries_of("engine_types"),
                    target="engine_types",
                    required=True,
                    fixed=True,
                ),
                Input(
                    "component",
                    "Component",
                    "choice",
                    choices=entries_of("components"),
                    target="components",
                    required=True,
                    fixed=True,
                ),
                Input("grade", "Grade", "choice", choices=Grade.choices, required=True, fixed=True),
                NAME,
                Input("unit", "Unit", required=True),
                Input(
                    "quantity",
                    "In a full renewal",
                    "whole",
                    "of the unit",
                    required=True,
                    source="source",
                ),
            ),
        ),
        Section(
            "Price",
            (
                Input("list_price", "List price", "money", required=True, source="source"),
                Group(
                    "Before the strip-down it may be",
                    "each",
                    (
                        Input("range_low", "Low", "number", "times", required=True),
                        Input("range_high", "High", "number", "times", required=True),
                    ),
                    source="source",
                ),
                OFFERS,
            ),
            "Before tax.",
        ),
        Section("Note", (NOTE, SOURCE)),
    ),
)
MACHINE_WORK = Card(
    "machine_work",
    (
        Section(
            "The work",
            (
                code_input(),
                NAME,
                Input("unit", "Priced by the", "choice", choices=WorkUnit.choices, required=True),
                Input(
                    "vendor", "Done by", "choice", choices=_shops, target="suppliers", required=True, width=4
                ),
                codes("needs_operations", "Needs done first", "operations"),
                codes("components", "Is about", "components"),
            ),
        ),
        Section(
            "Price and time",
            (
                band("cost", "Price a unit", source="source", money=True, required=True),
                Group(
                    "Working days away",
                    "each",
                    (
                        Input("lead_typical_days", "Typical", "number", required=True),
                        Input("lead_slow_days", "Slow, 9 in 10", "number", required=True),
                    ),
                    source="source",
                ),
            ),
            "The outside shop's own, before markup and tax.",
        ),
        Section("Note", (NOTE, SOURCE)),
    ),
)
SUPPLIERS = Card(
    "suppliers",
    (
        Section(
            "The supplier",
            (
                code_input(),
                NAME,
                Input("kind", "Delivers", "choice", choices=SupplierKind.choices, required=True),
            ),
        ),
        Section("Note", (NOTE, SOURCE)),
    ),
)
SOURCES = Card(
    "sources",
    (
        Section(
            "The page",
            (
                code_input("Mark"),
                Input("title", "What it is", required=True, width=9),
                Input("gives", "What it gives", "long", width=12),
            ),
        ),
    ),
)
FACTS = Card(
    "facts",
    (
        Section(
            "The fact",
            (
                code_input(),
                Input("topic", "Topic", required=True, width=6),
                Input(
                    "confidence",
                    "How sure",
                    "choice",
                    choices=Confidence.choices,
                ),
                Input("statement", "Statement", "long", required=True, source="source", width=12),
                Input("formula", "Formula", width=6),
                Input("worked_example", "Worked example", "long", width=12),
            ),
        ),
        Section("Note", (SOURCE,)),
    ),
)
POLICIES = Card("policies", (Section("The habit", (code_input("Name"),)),))
