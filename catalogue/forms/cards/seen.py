"""The cards of findings, events and limits."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

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
    codes("renew", _("Renewed"), "components", source="source"),
    codes("inspect_operations", _("Looked at or cleaned"), "operations", source="source"),
    codes("machine_work", _("Sent out"), "machine_work", source="source"),
    codes(
        "machine_work_if_needed",
        _("Sent out if the measurement asks for it"),
        "machine_work",
        source="source",
    ),
)
_INSTEAD = (
    codes("if_one_piece_roller_rod:renew", _("Renewed instead"), "components", source="source"),
    codes("if_one_piece_roller_rod:machine_work", _("Sent out instead"), "machine_work", source="source"),
)
FINDINGS = Card(
    "findings",
    (
        Section(
            _("What is seen"),
            (
                code_input(),
                Input("name", _("What is seen"), required=True, width=9),
                Input(
                    "component",
                    pgettext_lazy("catalogue", "On"),
                    "choice",
                    choices=entries_of("components"),
                    target="components",
                    required=True,
                    width=4,
                ),
                Input(
                    "grade", _("What it asks"), "choice", choices=FindingGrade.choices, required=True, width=4
                ),
                Input("only_rod_type", _("Only on"), "choice", choices=RodType.choices, width=4),
                Input("cause", _("Usual cause"), "long", source="source", width=6),
                Input("tell_customer", _("What the customer is told"), "long", width=6),
                codes("any_of", _("It must name one of"), "components"),
            ),
        ),
        Section(
            _("What it asks for"),
            (
                Input(
                    "opens",
                    _("Opens"),
                    "choice",
                    choices=entries_of("operations"),
                    target="operations",
                    width=6,
                ),
                *_ASKED,
                codes("inspect_if_hard_hit", _("Looked at after a hard hit"), "operations"),
            ),
        ),
        Section(_("With a pressed-up crank"), _INSTEAD),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
    optional=("if_one_piece_roller_rod",),
)
EVENTS = Card(
    "events",
    (
        Section(
            _("What was told"),
            (
                code_input(),
                NAME,
                Input(
                    "same_as_finding",
                    _("Same as the finding"),
                    "choice",
                    choices=entries_of("findings"),
                    target="findings",
                    width=6,
                ),
                Group(
                    _("Above the rev limit"),
                    "each",
                    (
                        Input("pct_over:low", _("From"), "number", "%"),
                        Input("pct_over:high", _("To"), "number", "%"),
                    ),
                    source="source",
                ),
            ),
        ),
        Section(_("What it asks for"), _ASKED),
        Section(_("With a pressed-up crank"), _INSTEAD),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
    optional=("pct_over", "if_one_piece_roller_rod"),
)
LIMITS = Card(
    "limits",
    (
        Section(
            _("What is measured"),
            (
                code_input(),
                Input("quantity", pgettext_lazy("catalogue", "Quantity"), required=True, width=5),
                Input(
                    "component",
                    pgettext_lazy("catalogue", "On"),
                    "choice",
                    choices=entries_of("components"),
                    target="components",
                    required=True,
                    width=4,
                ),
                Input("unit", _("Unit"), required=True),
                Input("bad_when", _("Bad when"), "choice", choices=BadWhen.choices, required=True),
                Input("basis", _("Reckoned as"), width=6),
                Input(
                    "alternative_to",
                    _("In place of"),
                    "choice",
                    choices=entries_of("limits"),
                    target="limits",
                    width=6,
                ),
            ),
        ),
        Section(
            _("The figures"),
            (
                Group(
                    _("New"),
                    "each",
                    (
                        Input("standard:low", _("From"), "number", required=True),
                        Input("standard:high", _("To"), "number", required=True),
                    ),
                    source="source",
                ),
                Input("watch", _("Watch from"), "number", source="source"),
                Input("limit", _("Limit"), "number", required=True, source="source"),
                Input(
                    "from_manual",
                    _("These are the maker's manual's for the engine in hand"),
                    "tick",
                    width=6,
                ),
            ),
            _("The maker's service manual for the engine in hand governs."),
        ),
        Section(_("Note"), (NOTE, SOURCE)),
    ),
)
