"""The sheets of the catalogue: one list each, with its table, its filters and what it is about."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from catalogue.calc.said import say_inside
from catalogue.filters import filters
from catalogue.queries import lists
from catalogue.tables import tables

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


@dataclass(frozen=True, slots=True)
class KindSheet:
    """One kind of entry as people meet it."""

    kind: str
    title: StrOrPromise
    one: StrOrPromise
    says: StrOrPromise
    table: type[tables.EntryTable]
    narrowed_by: type[filters.EntryFilter]
    found: Callable[[], QuerySet[Any]]
    may_add: bool = True

    @property
    def many(self) -> str:
        """Its title inside a sentence."""
        return say_inside(str(self.title))


SHEETS: dict[str, KindSheet] = {
    sheet.kind: sheet
    for sheet in (
        KindSheet(
            "parts",
            _("Parts"),
            _("part"),
            _("What is bought, from whom, at what cost and how soon. Prices before tax."),
            tables.PartTable,
            filters.PartFilter,
            lists.parts,
        ),
        KindSheet(
            "components",
            _("Components"),
            pgettext_lazy("catalogue", "component"),
            _("Where an engine wears. Lives are habits of the trade until your own record says more."),
            tables.ComponentTable,
            filters.ComponentFilter,
            lists.components,
        ),
        KindSheet(
            "operations",
            _("Operations"),
            _("operation"),
            _("Bench work with its standard hours on each engine type, parts in hand, nothing seized."),
            tables.OperationTable,
            filters.OperationFilter,
            lists.operations,
        ),
        KindSheet(
            "machine_work",
            _("Machine work"),
            _("machine work"),
            _("What is sent out, at the outside shop's price before markup and tax."),
            tables.MachineWorkTable,
            filters.MachineWorkFilter,
            lists.machine_work,
        ),
        KindSheet(
            "tiers",
            _("Tiers"),
            _("tier"),
            _("Ways of building: what each changes, and what that costs in life."),
            tables.TierTable,
            filters.EntryFilter,
            lists.tiers,
            may_add=False,
        ),
        KindSheet(
            "load_laws",
            _("Load laws"),
            _("load law"),
            _("With which power of a load life falls, and how far that is disputed."),
            tables.LoadLawTable,
            filters.EntryFilter,
            lists.load_laws,
            may_add=False,
        ),
        KindSheet(
            "duties",
            _("Duties"),
            _("duty"),
            _(
                "Kinds of use, with how hard each is on an engine; "
                "1 is as hard as the lives were written for."
            ),
            tables.DutyTable,
            filters.DutyFilter,
            lists.duties,
        ),
        KindSheet(
            "engine_types",
            _("Engine types"),
            _("engine type"),
            _("Families of engines with one geometry and one catalogue."),
            tables.EngineTypeTable,
            filters.EntryFilter,
            lists.engine_types,
        ),
        KindSheet(
            "findings",
            _("Findings"),
            _("finding"),
            _("What a strip-down may show, and what that asks for."),
            tables.FindingTable,
            filters.FindingFilter,
            lists.findings,
        ),
        KindSheet(
            "events",
            _("Events"),
            _("event"),
            _("What the customer or the logger tells, and what that asks for."),
            tables.EventTable,
            filters.EntryFilter,
            lists.events,
        ),
        KindSheet(
            "limits",
            _("Limits"),
            _("limit"),
            _("Defaults that yield to the maker's manual of the engine in hand."),
            tables.LimitTable,
            filters.LimitFilter,
            lists.limits,
        ),
        KindSheet(
            "suppliers",
            _("Suppliers"),
            _("supplier"),
            _("Who delivers parts, and who does machine work."),
            tables.SupplierTable,
            filters.SupplierFilter,
            lists.suppliers,
        ),
        KindSheet(
            "sources",
            _("Sources"),
            _("source"),
            _("Published pages that values rest on, by a plain description. Read again before quoting one."),
            tables.SourceTable,
            filters.EntryFilter,
            lists.sources,
        ),
        KindSheet(
            "facts",
            _("Facts"),
            _("fact"),
            _("What the trade holds to be so, and can be checked."),
            tables.FactTable,
            filters.FactFilter,
            lists.facts,
        ),
        KindSheet(
            "policies",
            _("Habits"),
            _("habit"),
            _("What is usual on money and time. Law differs by place: ask someone licensed."),
            tables.PolicyTable,
            filters.EntryFilter,
            lists.policies,
            may_add=False,
        ),
    )
}
"""By kind, in the order in which they are named."""
