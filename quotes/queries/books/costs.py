"""What builds have cost: bills, parts from stock, and what of it is still work in progress."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from decimal import Decimal

from django.db.models import F, QuerySet, Sum

from catalogue.calc.money import ZERO
from quotes.calc.books.bill_costs import costs_with_tax
from quotes.calc.books.posting import BuildCosts
from quotes.models import (
    Acceptance,
    BillLine,
    BillLineKind,
    JournalEntry,
    JournalLine,
    JournalSource,
    StockUse,
    Workshop,
)
from quotes.queries.books.exact import exact
from quotes.queries.workshop import currency_decimals

NOTHING = BuildCosts()


def build_cost(build: Acceptance) -> BuildCosts:
    """What one build has cost so far, hours left out; the same number of queries whatever it has."""
    return build_costs([build.pk]).get(build.pk, NOTHING)


def build_costs(builds: Collection[int]) -> Mapping[int, BuildCosts]:
    """What each build has cost so far, by bills and from stock, tax that nobody gives back included."""
    sums: dict[int, dict[str, Decimal]] = defaultdict(lambda: defaultdict(lambda: ZERO))
    for build, kind, cost in _billed(builds):
        sums[build][kind] += cost
    stock = StockUse.objects.filter(build__in=builds).values("build_id").annotate(cost_of=Sum("cost"))
    for row in stock.order_by():
        sums[row["build_id"]]["part"] += exact(row["cost_of"])
    return {
        build: BuildCosts(parts=by["part"], machine_work=by["machine_work"], other=by["freight"])
        for build, by in sums.items()
    }


def _billed(builds: Collection[int]) -> list[tuple[int, str, Decimal]]:
    """Build, kind and cost of every line of every bill that has a line for one of the builds."""
    mine = BillLine.objects.filter(build__in=builds).values("bill_id")
    by_bill: dict[int, list[BillLine]] = defaultdict(list)
    for line in BillLine.objects.filter(bill__in=mine).select_related("bill").order_by("bill", "order"):
        by_bill[line.bill_id].append(line)
    given_back = set(
        JournalLine.objects.filter(role="tax_on_purchases", entry__bill__in=mine).values_list(
            "entry__bill_id", flat=True
        )
    )
    decimals = currency_decimals(Workshop.objects.get_or_default().currency)
    found = []
    for bill, lines in by_bill.items():
        tax = ZERO if bill in given_back else lines[0].bill.tax
        costs = costs_with_tax([line.net for line in lines], tax, decimals)
        found += [
            (line.build_id, line.kind, cost)
            for line, cost in zip(lines, costs, strict=True)
            if line.build_id is not None and line.build_id in builds
        ]
    return found


def work_in_progress(build: Acceptance) -> Decimal:
    """What the journal holds as work in progress for a build."""
    lines = JournalLine.objects.filter(role="work_in_progress", build=build)
    return exact(lines.aggregate(sum=Sum(F("debit") - F("credit")))["sum"])


def cost_of_sales(build: Acceptance) -> BuildCosts:
    """What the journal holds as cost of sales for a build."""
    lines = JournalLine.objects.filter(role__startswith="cost_of_", build=build).order_by()
    sums = lines.values_list("role").annotate(sum=Sum(F("debit") - F("credit")))
    by = {role: exact(total) for role, total in sums}
    return BuildCosts(
        parts=by.get("cost_of_parts", ZERO),
        machine_work=by.get("cost_of_machine_work", ZERO),
        other=by.get("cost_of_sales_other", ZERO),
    )


def settled_among(numbers: Collection[str]) -> set[str]:
    """Of builds, by the number of their quote, those that are finally invoiced; one query, none for none."""
    if not numbers:
        return set()
    return _settled(JournalEntry.objects.filter(number__in=numbers))


def all_settled() -> set[str]:
    """Numbers of the quotes of all builds that are finally invoiced; one query."""
    return _settled(JournalEntry.objects.all())


def _settled(entries: QuerySet[JournalEntry]) -> set[str]:
    """Those whose costs were not taken back since they became cost of sales."""
    moved = entries.filter(source__in=(JournalSource.COST_OF_SALES, JournalSource.COST_TAKEN_BACK))
    latest = dict(moved.order_by("pk").values_list("number", "source"))
    return {number for number, source in latest.items() if source == JournalSource.COST_OF_SALES}


FOR_A_BUILD = frozenset({BillLineKind.PART, BillLineKind.MACHINE_WORK, BillLineKind.FREIGHT})
"""Kinds of line that may be for a build."""
