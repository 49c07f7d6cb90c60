"""What the books and the desk have to do about money: as many queries whatever they find."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from django.db.models import Count, Exists, F, Min, OuterRef, QuerySet, Sum

from catalogue.calc.money import ZERO
from quotes.models import (
    Acceptance,
    Allocation,
    BankLine,
    CalledOff,
    Invoice,
    InvoiceDraft,
    InvoiceKind,
    ItemKind,
    JournalEntry,
    JournalLine,
    OpenItem,
    Payment,
    SupplierBill,
    WorkedHours,
)
from quotes.models.answer import AcceptanceQuerySet
from quotes.queries.books.bills import SOON
from quotes.queries.books.exact import exact
from quotes.queries.today import SHOWN

MOST, MOST_OF_BOOKS = 10, 25
"""So many lines of one sort stand on the day sheet of all, and on that of the books."""
SETTLED_DAYS = 90
"""So long after a build was called off it is said what is left to do about it."""
LEAVES_DAYS = 14
"""So long after the last payment an engine is said to be free to leave."""


@dataclass(frozen=True, slots=True)
class Heap:
    """How many of one sort there are, what they come to, and the oldest day among them."""

    count: int
    total: Decimal
    oldest: date | None


def overdue_heap(on: date) -> Heap:
    """What customers owe past its day."""
    rows = OpenItem.objects.overdue(on).aggregate(n=Count("pk"), total=Sum("open_amount"), day=Min("due_on"))
    return Heap(rows["n"], exact(rows["total"]), rows["day"])


def bills_heap(on: date) -> Heap:
    """Bills that are overdue or due within the week."""
    rows = SupplierBill.objects.due_by(on + SOON)
    found = rows.aggregate(n=Count("pk"), total=Sum("gross"), day=Min("due_on"))
    return Heap(found["n"], exact(found["total"]), found["day"])


def not_exported() -> int:
    """Entries that no batch holds."""
    return JournalEntry.objects.not_exported().count()


def bank_lines_waiting() -> int:
    """Lines of bank files that are neither taken nor put aside."""
    return BankLine.objects.waiting().count()


def _builds() -> AcceptanceQuerySet:
    quote = (f"quote__{name}" for name in SHOWN)
    own = ("tier_name", "gross", "deposit", "accepted_at", "done_at")
    return Acceptance.objects.select_related("quote__customer", "quote__engine").only(*own, *quote)


def done_not_invoiced(most: int = MOST) -> list[Acceptance]:
    """Builds off the bench of which nothing has been asked for, or all of it was taken back; oldest first."""
    return list(_builds().to_invoice().order_by("done_at", "pk")[:most])


def deposits_to_ask() -> list[Acceptance]:
    """Builds on the bench whose deposit is neither asked for nor held; oldest first."""
    asked = Invoice.objects.filter(build=OuterRef("pk"), kind__in=[InvoiceKind.DEPOSIT, InvoiceKind.INVOICE])
    begun = InvoiceDraft.objects.open().filter(build=OuterRef("pk"))
    held = Payment.objects.filter(deposit=True, build__isnull=False).order_by().values("build")
    rows = _builds().in_hand().filter(deposit__gt=0)
    rows = rows.filter(~Exists(asked), ~Exists(begun)).exclude(pk__in=held)
    return list(rows.order_by("accepted_at", "pk")[:MOST])


def deposits_not_paid() -> list[OpenItem]:
    """Deposit invoices with something open, the first due first."""
    rows = OpenItem.objects.owed_to_us().filter(kind=ItemKind.DEPOSIT)
    return list(_with_build(rows).order_by("due_on", "on", "pk")[:MOST])


def _with_build(rows: QuerySet[OpenItem]) -> QuerySet[OpenItem]:
    joined = rows.select_related("customer", "invoice__build__quote__engine")
    return joined.defer("invoice__sheet", "invoice__build__quote__request")


def may_leave(on: date) -> list[Acceptance]:
    """Builds off the bench that are invoiced and owe nothing, since their last payment; newest first."""
    of_build = Invoice.objects.filter(build=OuterRef("pk"))
    owed = OpenItem.objects.owed_to_us().filter(invoice__build=OuterRef("pk"))
    settled = Allocation.objects.filter(on__gte=on - timedelta(days=LEAVES_DAYS)).order_by()
    rows = Acceptance.objects.filter(done_at__isnull=False, pk__in=settled.values("debit__invoice__build"))
    rows = rows.filter(Exists(of_build.filter(kind=InvoiceKind.INVOICE)), ~Exists(owed))
    # Picked before they are joined: PostgreSQL takes longer to plan so many joins at once than to read them.
    first = rows.order_by("-done_at", "pk").values("pk")[:MOST]
    return list(_builds().filter(pk__in=first).order_by("-done_at", "pk"))


@dataclass(frozen=True, slots=True)
class ToSettle:
    """A build called off, and what of its deposit is held still, before tax where it was invoiced."""

    called_off: CalledOff
    held: Decimal


def called_off_to_settle(on: date) -> list[ToSettle]:
    """Builds called off whose deposit is held still, or whose hours are not invoiced; oldest first.

    One query where none was called off lately, else four.
    """
    rows = CalledOff.objects.filter(on__gte=on - timedelta(days=SETTLED_DAYS))
    rows = rows.select_related("build__quote__customer", "build__quote__engine").defer(
        "build__quote__request"
    )
    lately = list(rows.order_by("at", "pk"))
    builds = [one.build_id for one in lately]
    hours = WorkedHours.objects.filter(build__in=builds, build__invoiced_at=None)
    held, worked = _deposits_held(builds), set(hours.order_by().values_list("build", flat=True))
    found = (ToSettle(one, held.get(one.build_id, ZERO)) for one in lately)
    return [one for one in found if one.held > ZERO or one.called_off.build_id in worked][:MOST]


def _deposits_held(builds: list[int]) -> dict[int, Decimal]:
    """By build, one deposited for its strip-down included."""
    held: dict[int, Decimal] = {}
    # Each way by itself, for each has an index; together all deposits of ten years would be read.
    for way in ("build", "entry__payment__job__quote__acceptance"):
        lines = JournalLine.objects.filter(role="deposits_held", **{f"{way}__in": builds})
        lines = lines if way == "build" else lines.filter(build=None)
        for build, amount in lines.order_by().values_list(way).annotate(held=Sum(F("credit") - F("debit"))):
            held[build] = held.get(build, ZERO) + exact(amount)
    return held
