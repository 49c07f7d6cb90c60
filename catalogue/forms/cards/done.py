"""The card of operations."""

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
    by_type,
    code_input,
    codes,
    entries_of,
)
from catalogue.models.choices import Attribute, KindOfWork, TakenRule

CONDITIONS = Grid(
    "requires_if",
    _("Needs first, where it applies"),
    _("Condition"),
    (
        Input("attribute", _("Where the"), "choice", choices=Attribute.choices, required=True, width=3),
        Input("equals", _("is"), required=True, width=3),
        Input("requires", _("it needs"), "codes", target="operations", width=6),
    ),
    says=_("Delivered: loose, in_chassis, or in_chassis_multi with more than one cylinder."),
    source="source",
)
CONSUMES = Grid(
    "consumes",
    _("Takes"),
    _("Part taken"),
    (
        Input(
            "component",
            _("Component"),
            "choice",
            choices=entries_of("components"),
            target="components",
            required=True,
            width=5,
        ),
        Input("quantity", _("How many"), says=_("full, as_measured or a number"), required=True, width=3),
        Input("rule", _("When"), "choice", choices=TakenRule.choices, required=True, width=4),
    ),
    says=_("Single-use parts of the refit: this is how gaskets get on the quote."),
    source="source",
)
OPERATIONS = Card(
    "operations",
    (
        Section(
            _("The work"),
            (
                code_input(),
                NAME,
                Input("kind", _("Kind of work"), "choice", choices=KindOfWork.choices, required=True),
                codes("components", _("Is about"), "components"),
                Input("records", _("What is recorded"), "lines", says=_("One a line."), width=6),
            ),
        ),
        Section(
            _("Hours"),
            (
                by_type(
                    "hours",
                    _("Fixed"),
                    "hours",
                    unit="h",
                    says=_("Blank: this engine type does not have the operation."),
                    source="source",
                ),
                Group(
                    _("For each piece besides"),
                    "each",
                    (
                        Input(
                            "per_piece:piece",
                            _("Piece"),
                            says=_("As the engine types count them: cylinder, valve, rod."),
                        ),
                        Input("per_piece:hours", _("Hours"), "hours", "h"),
                    ),
                    source="source",
                ),
            ),
            _("One competent builder, parts in hand, nothing seized. Within a quarter either way."),
        ),
        Section(
            _("What comes before and after"),
            (
                codes("requires", _("Needs first"), "operations"),
                CONDITIONS,
                codes("after", _("Comes after, if both are done"), "operations"),
                codes("undo", _("Is undone by"), "operations"),
                CONSUMES,
            ),
            _("A loop, where two wait for each other, is refused."),
        ),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
    optional=("per_piece",),
)
