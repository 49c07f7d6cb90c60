"""The state of the books on a day, as an export keeps it: open items and deposits held."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django.db.models import F, OuterRef, QuerySet, Subquery, Sum
from django.db.models.functions import Coalesce

from catalogue.calc.money import ZERO
from quotes.calc.books.export import HeldAsOf, OpenAsOf
from quotes.models import Acceptance, Allocation, ItemKind, JournalEntry, JournalLine, JournalSource, OpenItem
from quotes.queries.books.exact import exact

AT_ONCE = 500


def state_on(day: date) -> dict[str, Any]:
    """What was open and held on a day, as plain values to be kept: `[key, sum]` each. Three queries."""
    left, receivables = _open(day)
    return {
        "as_of": day.isoformat(),
        "open": [[pk, str(amount)] for pk, amount in left.items() if amount],
        "held": [[build, str(amount)] for build, amount in _held(day).items() if amount],
        "receivables": str(receivables),
    }


def open_as_of(state: Mapping[str, Any]) -> Iterator[OpenAsOf]:
    """The items that were open, oldest first."""
    kept = [(int(pk), Decimal(amount)) for pk, amount in state["open"]]
    for start in range(0, len(kept), AT_ONCE):
        chunk = dict(kept[start : start + AT_ONCE])
        found = (
            OpenItem.objects.filter(pk__in=chunk).select_related("customer", *_BUILDS).order_by("on", "pk")
        )
        for item in found.defer("invoice__sheet"):
            source = item.invoice or item.payment
            build = source.build if source else None
            yield OpenAsOf(
                on=item.on,
                number=item.number,
                kind=str(item.get_kind_display()),
                customer=item.customer.name,
                build=str(build.quote.number or "") if build else "",
                due_on=item.due_on,
                amount=item.amount,
                open_amount=chunk[item.pk],
            )


_BUILDS = ("invoice__build__quote", "payment__build__quote")


def held_as_of(state: Mapping[str, Any]) -> Iterator[HeldAsOf]:
    """The deposits that were held, by build."""
    kept = [(pk, Decimal(amount)) for pk, amount in state["held"]]
    builds = Acceptance.objects.filter(pk__in=[pk for pk, _ in kept if pk])
    found = builds.values_list("pk", "quote__number", "quote__customer__name")
    named = {pk: (str(number), str(customer)) for pk, number, customer in found}
    for pk, amount in sorted(kept, key=lambda one: named.get(one[0], ("", ""))):
        build, customer = named.get(pk, ("", "of no build"))
        yield HeldAsOf(build=build, customer=customer, amount=amount)


def _open(day: date) -> tuple[dict[int, Decimal], Decimal]:
    """Item to what no allocation up to that day had settled, and the balance of the customers' account.

    One statement, so that both are of one moment while others go on taking payments.
    """
    settled = Allocation.objects.filter(on__lte=day, debit__on__lte=day, credit__on__lte=day).order_by()
    customers = JournalLine.objects.filter(role="receivables", entry__on__lte=day).order_by()
    account = customers.values("role").annotate(sum=Sum("debit") - Sum("credit"))
    items = OpenItem.objects.filter(on__lte=day)
    if not JournalEntry.objects.filter(source=JournalSource.OPENING, on__lte=day).exists():
        # What the books begin with bears the days of its old documents, which lie before they begin.
        items = items.exclude(kind=ItemKind.OPENING)
        settled = settled.exclude(debit__kind=ItemKind.OPENING).exclude(credit__kind=ItemKind.OPENING)
    items = items.annotate(
        used=_sum_of(settled, "credit"),
        paid=_sum_of(settled, "debit"),
        account=Subquery(account.values("sum")),
    )
    fields = ("pk", "amount", "used", "paid", "account")
    rows = list(items.order_by("on", "pk").values_list(*fields))
    left = {pk: exact(amount + (used or ZERO) - (paid or ZERO)) for pk, amount, used, paid, _ in rows}
    return left, exact((rows[0][-1] if rows else None) or ZERO)


def _sum_of(settled: QuerySet[Allocation], side: str) -> Subquery:
    """What an item has given as credit, or got as debit."""
    of_item = settled.filter(**{side: OuterRef("pk")}).values(side)
    return Subquery(of_item.annotate(sum=Sum("amount")).values("sum"))


def _held(day: date) -> dict[int | None, Decimal]:
    """Build to the deposits held for it."""
    lines = JournalLine.objects.filter(role="deposits_held", entry__on__lte=day).order_by()
    # A deposit of a strip-down becomes the build's with its yes.
    of = Coalesce("build", "entry__payment__job__quote__acceptance")
    sums = lines.annotate(of=of).order_by("of").values("of").annotate(held=Sum(F("credit") - F("debit")))
    return {row["of"]: exact(row["held"]) for row in sums}
