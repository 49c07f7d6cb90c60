"""Writing a year of trading through the same actions that people use, in the order of its days."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from uuid import NAMESPACE_URL, uuid5

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from quotes.actions.accepting import accept, mark_done
from quotes.actions.answers import decline
from quotes.actions.books.batches import finish_batch, start_batch
from quotes.actions.books.months import lock_month
from quotes.actions.calls import Call, keep_call
from quotes.actions.customers import CustomerDetails, create_customer
from quotes.actions.demo.bench import Day
from quotes.actions.demo.bench_day import BenchDay
from quotes.actions.demo.job import BENCH
from quotes.actions.demo.money import MONEY, open_the_books
from quotes.actions.demo.outcomes import tell_outcomes
from quotes.actions.demo.way_out import WAY_OUT
from quotes.actions.issuing import issue
from quotes.calc.demo.year import Happening, Year, YearBuild, happenings
from quotes.models import Acceptance, Customer, Invoice, Quote

STEPS = {**BENCH, **WAY_OUT}
ROLES = ("desk", "books", "owner", "builder")


@dataclass
class Trading:
    """What the year has come to so far: the quote of each build, by the engine's number."""

    now: datetime
    desk: User
    books: User
    owner: User
    builder: User
    quotes: dict[str, Quote] = field(default_factory=dict)

    def at(self, days_ago: int) -> datetime:
        """Eleven in the morning of that day, or now where that has not come yet."""
        day = timezone.localdate(self.now) - timedelta(days=days_ago)
        morning = timezone.make_aware(datetime.combine(day, time(11)))
        return min(morning, self.now)


def write_year(
    *, year: Year, now: datetime, said: Callable[[int, int], None] = lambda done, of: None
) -> None:
    """Write the year into a demo workshop that has none yet; `said` hears how far it has come."""
    if Invoice.objects.exists():
        return
    people = {user.username: user for user in User.objects.filter(username__in=ROLES)}
    trading = Trading(now, people["desk"], people["books"], people["owner"], people["builder"])
    ahead = list(happenings(year))
    with transaction.atomic():
        first = trading.at(max(each.days_ago for each in ahead) + 1)
        open_the_books(year.opening, by=trading.owner, now=first)
        for customer in year.customers:
            _customer(customer.name, f"{customer.address}\n{customer.place}", first)
    for done, happening in enumerate(ahead, 1):
        with transaction.atomic():
            _happen(trading, happening)
        said(done, len(ahead))
    tell_outcomes(year=year, quotes=trading.quotes, by=trading.desk, now=now)
    _hand_over(trading, year)


def _hand_over(trading: Trading, year: Year) -> None:
    """The bookkeeper has exported what is older than two months, and closed those months."""
    last = timezone.localdate(trading.now).replace(day=1) - timedelta(days=32)
    month_end = last.replace(day=1) - timedelta(days=1)
    batch = start_batch(by=trading.books, now=trading.now, last=month_end)
    finish_batch(batch_id=batch.pk)
    for month in _months(trading.at(max(build.called for build in year.builds) + 1).date(), month_end):
        lock_month(month=month, by=trading.books, now=trading.now)


def _months(first: date, last: date) -> Iterator[date]:
    """A day of each month from one day to another."""
    month = first.replace(day=1)
    while month <= last:
        yield month
        month = (month + timedelta(days=32)).replace(day=1)


def _happen(trading: Trading, happening: Happening) -> None:
    build, at = happening.build, trading.at(happening.days_ago)
    if happening.act == "call":
        trading.quotes[build.engine] = _call(trading, build, at)
        return
    quote = trading.quotes[build.engine]
    quote.refresh_from_db()
    assert quote.latest is not None
    if happening.act == "decline":
        decline(revision=quote.latest, text="Sold the machine.", name=build.customer, now=at)
    elif happening.act == "accept":
        accept(
            revision=quote.latest,
            tier=build.tier,
            extras=(),
            name=build.customer,
            right="owner of the engine",
            telephone="",
            limit_sum=Decimal(150),
            agreed_terms=True,
            rider_safety_read=True,
            papers=False,
            now=at,
        )
    elif happening.act in STEPS:
        STEPS[happening.act](BenchDay(build, quote, at, trading.desk, trading.owner, trading.builder))
    elif happening.act == "done":
        mark_done(acceptance=Acceptance.objects.get(quote=quote), by=trading.builder, now=at)
    else:
        accepted = Acceptance.objects.select_related("quote__customer", "quote__engine", "revision").get(
            quote=quote
        )
        second = Customer.objects.filter(name=build.second).first()
        day = Day(
            accepted, second, happening.order, at, trading.desk, trading.books, trading.owner, trading.builder
        )
        MONEY[happening.act](day)


def _customer(name: str, address: str, now: datetime) -> Customer:
    found = Customer.objects.filter(name=name).first()
    return found or create_customer(details=CustomerDetails(name, address=address), now=now)


def _call(trading: Trading, build: YearBuild, at: datetime) -> Quote:
    """The call, the quote that was kept from it, and that quote issued."""
    customer = Customer.objects.get(name=build.customer)
    call = Call(details=CustomerDetails(customer.name), number=build.engine, customer=customer)
    request = build.request(timezone.localdate(trading.now))
    card_key = uuid5(NAMESPACE_URL, f"demo-year:{build.engine}")
    quote = keep_call(call=call, request=request, card_key=card_key, by=trading.desk, now=at)
    issue(quote=quote, by=trading.desk, now=at, class_tick=True, papers=False)
    return quote
