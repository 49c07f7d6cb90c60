"""What happens on the bench of a demo year: bills, parts from the shelf, hours, extra work."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from django.contrib.auth.models import User
from django.utils import timezone

from catalogue.calc.money import ZERO, round_half_up
from quotes.actions.books.bills import pay_bill
from quotes.actions.books.build_costs import use_stock
from quotes.actions.books.entering_bills import enter_bill
from quotes.actions.books.extra_work import answer_extra_work, offer_extra_work
from quotes.actions.books.keeping_bills import BillLineGiven
from quotes.actions.books.worked_hours import enter_hours
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.sheet.values import Option
from quotes.models import Acceptance, Customer, ExtraWork
from quotes.queries.sheets import sheet_of
from quotes.queries.workshop import shop_rules

PARTS, MACHINE_WORK = "Main parts wholesale", "Outside machine shop"
"""Invented suppliers."""
DAY_AT_THE_BENCH = Decimal(7)
"""Hours."""


@dataclass(frozen=True, slots=True)
class Day:
    """One build on one day, and who was there. `second` pays the rest where two pay."""

    build: Acceptance
    second: Customer | None
    order: int
    at: datetime
    desk: User
    books: User
    owner: User
    builder: User

    @property
    def on(self) -> date:
        return timezone.localdate(self.at)

    @property
    def option(self) -> Option:
        return sheet_of(self.build.revision).comparison.option(self.build.tier)

    def key(self, what: str) -> str:
        """A payment's key: the same each time the demo is loaded."""
        return f"demo:{self.build.quote.engine.number}:{what}:{self.on}"


def bills(day: Day) -> None:
    """What was bought for the build: parts from one supplier, machine work from another; some from stock."""
    for supplier, kind in ((PARTS, "part"), (MACHINE_WORK, "machine_work")):
        cost = sum((line.cost or ZERO for line in day.option.lines if line.kind == kind), ZERO)
        if cost:
            _bill(day, supplier, kind, cost)
    if day.order % 3 == 0:
        use_stock(
            build=day.build,
            description="Seals and fasteners from the shelf",
            component="",
            quantity=Decimal(1),
            cost=Decimal("18.50"),
            on=day.on,
            by=day.desk,
            now=day.at,
        )


def _bill(day: Day, supplier: str, kind: str, cost: Decimal) -> None:
    shop = shop_rules(day.on)
    net = round_half_up(cost * (100 + day.order % 7) / 100, shop.decimals)
    with_tax = (
        day.build.revision.sheet["comparison"]["currency"] != "USD"
    )  # parts for resale bear no sales tax
    rate = shop.tax_codes[shop.taxability["part"]].rate_pct if with_tax else ZERO
    bill = enter_bill(
        supplier=supplier,
        supplier_number=f"{supplier[0]}{4000 + day.order * 2}",
        on=day.on,
        due_on=day.on + timedelta(days=30),
        lines=[BillLineGiven(kind, f"For {day.build.quote.number}", net, day.build)],
        tax=round_half_up(net * rate / 100, shop.decimals),
        by=day.books,
        now=day.at,
    )
    if day.at < timezone.now() - timedelta(days=40):
        pay_bill(bill=bill, on=day.on, method="transfer", by=day.books, now=day.at)


def hours(day: Day) -> None:
    """What the clock came to, a little under or over what was quoted, over the days up to this one."""
    share = Decimal(90 + day.order * 7 % 27) / 100
    left = round_half_up(day.option.hours * share)
    on = day.on
    while left:
        spent = min(left, DAY_AT_THE_BENCH)
        enter_hours(
            build=day.build,
            operation="",
            person=day.builder,
            on=on,
            hours=spent,
            by=day.builder,
            now=day.at,
        )
        left, on = left - spent, on - timedelta(days=1)


def offer_extra(day: Day) -> None:
    shop = shop_rules(day.on)
    lines = (
        DraftLine(
            kind="part",
            description="Cylinder plated again",
            quantity=Decimal(1),
            unit_price=Decimal(320),
            tax_code=shop.taxability["part"],
        ),
        DraftLine(
            kind="labour",
            description="Fit and measure",
            quantity=Decimal("1.5"),
            unit="h",
            unit_price=shop.labour_rates["assemble"],
            tax_code=shop.taxability["labour"],
        ),
    )
    offer_extra_work(
        build=day.build,
        words="A bore is scored past its limit",
        lines=lines,
        risk_if_declined="Burns oil and may seize",
        by=day.builder,
        now=day.at,
    )


def answer_extra(day: Day, accepted: bool) -> None:
    extra = ExtraWork.objects.get(build=day.build)
    name = day.build.name
    how = "By telephone, 555 0190, written down by the desk"
    answer_extra_work(extra=extra, accepted=accepted, name=name, how=how, by=day.desk, now=day.at)
