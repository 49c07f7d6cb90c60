"""The cards of parts, suppliers, machine work and where values come from."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

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
    pgettext_lazy("catalogue", "Offers"),
    _("Offer"),
    (
        Input(
            "supplier",
            _("Supplier"),
            "choice",
            choices=_deliverers,
            target="suppliers",
            required=True,
            width=4,
        ),
        Input("number", _("Their number"), width=3),
        Input("holds", _("Units in one of theirs"), "whole", width=3),
        Input("cost", _("Cost"), "money", required=True, width=2),
        Input("pack", _("In lots of"), "whole", width=2),
        Input("minimum_quantity", _("At least"), "whole", width=2),
        Input("preferred", _("Take this one"), "tick", width=2),
        Input("lead_typical_days", _("Days to arrive"), "number", required=True, width=3),
        Input("lead_slow_days", _("Slow, 9 in 10"), "number", required=True, width=3),
        Input("note", _("Note"), width=6),
        Input("source", _("Where it comes from"), width=6),
    ),
    says=_("What each supplier asks for one unit, before tax. Working days."),
)
PARTS = Card(
    "parts",
    (
        Section(
            _("The part"),
            (
                code_input(_("Part number"), "number"),
                Input(
                    "engine_type",
                    _("Engine type"),
                    "choice",
                    choices=entries_of("engine_types"),
                    target="engine_types",
                    required=True,
                    fixed=True,
                ),
                Input(
                    "component",
                    _("Component"),
                    "choice",
                    choices=entries_of("components"),
                    target="components",
                    required=True,
                    fixed=True,
                ),
                Input("grade", _("Grade"), "choice", choices=Grade.choices, required=True, fixed=True),
                NAME,
                Input("unit", _("Unit"), required=True),
                Input(
                    "quantity",
                    _("In a full renewal"),
                    "whole",
                    _("of the unit"),
                    required=True,
                    source="source",
                ),
            ),
        ),
        Section(
            _("Price"),
            (
                Input("list_price", _("List price"), "money", required=True, source="source"),
                Group(
                    _("Before the strip-down it may be"),
                    "each",
                    (
                        Input("range_low", _("Low"), "number", _("times"), required=True),
                        Input("range_high", _("High"), "number", _("times"), required=True),
                    ),
                    source="source",
                ),
                OFFERS,
            ),
            _("Before tax."),
        ),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
)
MACHINE_WORK = Card(
    "machine_work",
    (
        Section(
            _("The work"),
            (
                code_input(),
                NAME,
                Input("unit", _("Priced by the"), "choice", choices=WorkUnit.choices, required=True),
                Input(
                    "vendor",
                    _("Done by"),
                    "choice",
                    choices=_shops,
                    target="suppliers",
                    required=True,
                    width=4,
                ),
                codes("needs_operations", _("Needs done first"), "operations"),
                codes("components", _("Is about"), "components"),
            ),
        ),
        Section(
            _("Price and time"),
            (
                band("cost", _("Price a unit"), source="source", money=True, required=True),
                Group(
                    _("Working days away"),
                    "each",
                    (
                        Input("lead_typical_days", _("Typical"), "number", required=True),
                        Input("lead_slow_days", _("Slow, 9 in 10"), "number", required=True),
                    ),
                    source="source",
                ),
            ),
            _("The outside shop's own, before markup and tax."),
        ),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
)
SUPPLIERS = Card(
    "suppliers",
    (
        Section(
            _("The supplier"),
            (
                code_input(),
                NAME,
                Input("kind", _("Delivers"), "choice", choices=SupplierKind.choices, required=True),
            ),
        ),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
)
SOURCES = Card(
    "sources",
    (
        Section(
            _("The page"),
            (
                code_input(_("Mark")),
                Input("title", _("What it is"), required=True, width=9),
                Input("gives", _("What it gives"), "long", width=12),
            ),
        ),
    ),
)
FACTS = Card(
    "facts",
    (
        Section(
            _("The fact"),
            (
                code_input(),
                Input("topic", _("Topic"), required=True, width=6),
                Input(
                    "confidence",
                    _("How sure"),
                    "choice",
                    choices=Confidence.choices,
                ),
                Input(
                    "statement",
                    pgettext_lazy("catalogue", "Statement"),
                    "long",
                    required=True,
                    source="source",
                    width=12,
                ),
                Input("formula", _("Formula"), width=6),
                Input("worked_example", _("Worked example"), "long", width=12),
            ),
        ),
        Section(_("Note"), (SOURCE,)),
    ),
)
POLICIES = Card("policies", (Section(_("The habit"), (code_input(_("Name")),)),))
