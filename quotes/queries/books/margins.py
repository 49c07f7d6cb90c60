"""Job margins: every build that was invoiced, what was quoted for it against what it took."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date
from decimal import Decimal

from django.db.models import F, Sum

from catalogue.calc.money import ZERO
from quotes.calc.books.margin import BuildMargin, Margins, QuotedAgainst, margins_of
from quotes.models import Acceptance, JournalEntry, JournalLine, JournalSource, WorkedHours
from quotes.queries.books.chart import books_settings
from quotes.queries.books.costs import NOTHING, build_costs
from quotes.queries.books.exact import exact
from quotes.queries.books.quoted_costs import quoted_takes

SALES = ("sales_labour", "sales_parts", "sales_machine_work", "sales_consumables", "sales_other", "discounts")
"""What a build brings in; interest on late payment is no part of it."""

ENGINE = "revision__sheet__comparison__engine_type_name"


def margins(first: date | None = None, last: date | None = None) -> Margins:
    """Builds of which anything was invoiced or credited in the period, with all that they took until now.

    Quoted are the hours, parts and machine work of the option, of the extras ticked with it and of extra work
    agreed; extra work priced by hand bears its hours, and the cost of what a supplier lists. The same number
    of queries for any number of builds.
    """
    lines = JournalLine.objects.filter(role__in=SALES, build__isnull=False)
    if first is not None:
        lines = lines.filter(entry__on__gte=first)
    if last is not None:
        lines = lines.filter(entry__on__lte=last)
    return margins_of(_of(list(lines.order_by().values_list("build", flat=True).distinct())))


def last_invoiced() -> date | None:
    """The day of the latest invoice."""
    entries = JournalEntry.objects.filter(source=JournalSource.INVOICE).order_by("-on", "-pk")
    return entries.values_list("on", flat=True).first()


def _of(builds: Collection[int]) -> Iterable[BuildMargin]:
    an_hour = books_settings().labour_cost_an_hour
    invoiced, costs = _invoiced(builds), build_costs(builds)
    clocked, quoted_for = _clocked(builds), quoted_takes(builds)
    rows = (
        Acceptance.objects.filter(pk__in=builds)
        .order_by("-accepted_at", "-pk")
        .values("pk", "tier", "tier_name", "quote__number", "quote__customer__name", ENGINE)
    )
    for row in rows:
        key, hours = row["pk"], clocked.get(row["pk"], ZERO)
        quoted, actual = quoted_for[key], costs.get(key, NOTHING)
        yield BuildMargin(
            build_id=key,
            name=str(row["quote__number"]),
            customer=row["quote__customer__name"],
            tier=row["tier_name"],
            engine_type=row[ENGINE],
            hours=QuotedAgainst(quoted=quoted.hours, actual=hours),
            parts=QuotedAgainst(quoted=quoted.parts, actual=actual.parts),
            machine_work=QuotedAgainst(quoted=quoted.machine_work, actual=actual.machine_work),
            other_cost=actual.other,
            labour_cost=hours * an_hour,
            invoiced=invoiced.get(key, ZERO),
        )


def _invoiced(builds: Collection[int]) -> dict[int | None, Decimal]:
    lines = JournalLine.objects.filter(role__in=SALES, build__in=builds).order_by()
    sums = lines.values_list("build_id").annotate(net=Sum(F("credit") - F("debit")))
    return {build: exact(net) for build, net in sums}


def _clocked(builds: Collection[int]) -> dict[int, Decimal]:
    hours = WorkedHours.objects.filter(build__in=builds).order_by()
    return {build: exact(total) for build, total in hours.values_list("build_id").annotate(Sum("hours"))}
