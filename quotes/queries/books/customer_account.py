"""What customers owe: their open items as they were on a day, their statements, and the list by age."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal

from django.db.models import OuterRef, Q, Subquery, Sum
from django.db.models.fields import DecimalField
from django.utils.text import capfirst

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.books.ages import AgedItems, OwedItem, aged
from quotes.calc.books.statement import Movement, Statement, statement
from quotes.models import Allocation, Customer, ItemKind, OpenItem, PaymentKind
from quotes.models.books.payment import OpenItemQuerySet
from quotes.queries.books.deposits import deposits_held
from quotes.queries.books.exact import exact

MONEY = DecimalField(max_digits=16, decimal_places=3)


def open_items(*, customer: Customer | None = None) -> OpenItemQuerySet:
    """What is open now, of one customer or all, the oldest due first, with all that a list shows of it."""
    rows = OpenItem.objects.open().joined().defer("invoice__sheet")
    if customer is not None:
        rows = rows.filter(customer=customer)
    return rows.order_by("due_on", "on", "pk")


def ages(on: date) -> AgedItems:
    """What each customer owed at the end of that day, by age; three queries at most."""
    later = Allocation.objects.filter(on__gt=on).order_by()
    # Mostly the day is today, and then what is open is what was open that day. Asked for in one with the
    # rest, it has every item of all the years looked at.
    if not later.exists():
        # Each by its own index.
        now = [*_owed_now(OpenItem.objects.owed_to_us()), *_owed_now(OpenItem.objects.owed_by_us())]
        return aged((item for item in now if item.on <= on), on)
    is_open = Q(open_amount__gt=0) | Q(open_amount__lt=0)
    settled_later = Q(pk__in=later.values("debit")) | Q(pk__in=later.values("credit"))
    items = _as_of(on).filter(is_open | settled_later).select_related("customer").order_by("on", "pk")
    return aged((_owed(item) for item in items), on)


OWED = ("customer_id", "customer__name", "number", "on", "due_on", "open_amount")


def _owed_now(rows: OpenItemQuerySet) -> Iterator[OwedItem]:
    for customer_id, customer, number, on, due_on, amount in rows.order_by("on", "pk").values_list(*OWED):
        yield OwedItem(
            customer_id=customer_id, customer=customer, number=number, on=on, due_on=due_on, amount=amount
        )


def _owed(item: OpenItem) -> OwedItem:
    return OwedItem(
        customer_id=item.customer_id,
        customer=item.customer.name,
        number=item.number,
        on=item.on,
        due_on=item.due_on,
        amount=_left(item),
    )


def statement_of(customer: Customer, first: date, last: date) -> Statement:
    """A customer's account over a period, both days included; two queries."""
    items = _as_of(last).filter(customer=customer).select_related("payment__reverses").order_by("on", "pk")
    held = sum((each.amount for each in deposits_held(last, customer.pk)), ZERO)
    return statement(_movements(items), first, last, deposits_held=held)


def _movements(items: Iterable[OpenItem]) -> Iterable[Movement]:
    for item in items:
        yield Movement(
            on=item.on,
            kind=_kind(item),
            number=item.number,
            due_on=item.due_on,
            amount=item.amount,
            open=_left(item),
        )


def _kind(item: OpenItem) -> str:
    payment = item.payment
    if payment and payment.reverses and payment.kind == PaymentKind.REVERSAL:
        return say("{number} taken back", number=payment.reverses.number)
    return str(capfirst(ItemKind(item.kind).label))


def _as_of(day: date) -> OpenItemQuerySet:
    """Items up to a day, each with what had settled it by then as `got` and what it had settled as `gave`."""
    by_then = Allocation.objects.filter(on__lte=day).order_by()
    return OpenItem.objects.filter(on__lte=day).annotate(
        got=_sum_of(by_then.filter(debit=OuterRef("pk")).values("debit")),
        gave=_sum_of(by_then.filter(credit=OuterRef("pk")).values("credit")),
    )


def _sum_of(allocations: object) -> Subquery:
    sums = allocations.annotate(sum=Sum("amount")).values("sum")  # type: ignore[attr-defined]
    return Subquery(sums, output_field=MONEY)


def _left(item: OpenItem) -> Decimal:
    """What was open on the day that the item was read for."""
    got: Decimal | None = item.got  # type: ignore[attr-defined]
    gave: Decimal | None = item.gave  # type: ignore[attr-defined]
    return item.amount - exact(got) + exact(gave)


def overdue_items(on: date) -> OpenItemQuerySet:
    """What was to be paid before that day and is open now, the longest overdue first."""
    rows = OpenItem.objects.overdue(on).joined().defer("invoice__sheet")
    return rows.order_by("due_on", "on", "pk")


def credits_of(customer: Customer) -> OpenItemQuerySet:
    """What a customer has in credit, to be set off or paid back."""
    return OpenItem.objects.owed_by_us().filter(customer=customer).joined().order_by("on", "pk")
