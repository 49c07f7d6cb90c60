"""What builds have cost: bills, parts from stock, and what of it is still work in progress."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from decimal import Decimal

from django.db.models import F, Sum

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


def settled_among(numbers: Collection[str]) -> set[str]:
    """Of builds, by the number of their quote, those that are finally invoiced; one query, none for none."""
    if not numbers:
        return set()
    entries = JournalEntry.objects.filter(source=JournalSource.COST_OF_SALES, number__in=numbers)
    return set(entries.values_list("number", flat=True))


FOR_A_BUILD = frozenset({BillLineKind.PART, BillLineKind.MACHINE_WORK, BillLineKind.FREIGHT})
"""Kinds of line that may be for a build."""
