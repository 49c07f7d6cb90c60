"""What a build takes from the shelf, and its costs once it is finally invoiced."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.journal import pass_the_gate, post
from quotes.actions.books.money_given import currency_now, in_coins, not_to_come
from quotes.actions.saving import save_checked
from quotes.calc.books.posting import BuildCosts, cost_of_sales_entry, cost_taken_back_entry, stock_entry
from quotes.models import Acceptance, JournalEntry, StockUse
from quotes.queries.books.chart import accounts_now
from quotes.queries.books.costs import build_cost, cost_of_sales, settled_among, work_in_progress


@transaction.atomic
def use_stock(
    *,
    build: Acceptance,
    description: str,
    component: str,
    quantity: Decimal,
    cost: Decimal,
    on: date,
    by: User,
    now: datetime,
) -> StockUse:
    """Take parts from the shelf for a build; `cost` is of all of them. Below nought they go back."""
    in_coins(cost, currency_now(), "cost", above_nought=False)
    _refuse_both_ways(cost, quantity)
    row = save_checked(
        StockUse(
            build=build,
            description=description.strip(),
            component=component,
            quantity=quantity,
            cost=cost,
            on=not_to_come(on, now),
            by=by,
            at=now,
        )
    )
    pass_the_gate()
    number = str(build.quote.number)
    if cost:
        entry = stock_entry(
            on=on,
            build=number,
            description=row.description,
            cost=cost,
            settled=bool(settled_among([number])),
            accounts=accounts_now(),
        )
        post(entry=entry, by=by, now=now, builds={number: build})
    return row


def _refuse_both_ways(cost: Decimal, quantity: Decimal) -> None:
    if cost * quantity < ZERO:
        raise ValidationError(
            {
                "cost": say(
                    "{cost} and a quantity of {quantity} point both ways.",
                    cost=f"{cost:f}",
                    quantity=f"{quantity:f}",
                )
            }
        )


@transaction.atomic
def settle_cost_of_sales(*, build: Acceptance, on: date, by: User, now: datetime) -> JournalEntry | None:
    """Turn the work in progress of a build into cost of sales, once it is finally invoiced.

    The entry is written even where nothing was in work: it says that later bills are cost of sales at once.
    None where it stands already and nothing has come to it.
    """
    pass_the_gate()
    number = str(build.quote.number)
    in_progress = work_in_progress(build)
    settled = bool(settled_among([number]))
    if settled and not in_progress:
        return None
    known = BuildCosts() if settled else build_cost(build)
    # What the documents don't explain, such as freight or work begun before the books, is other cost.
    costs = known.model_copy(update={"other": in_progress - known.parts - known.machine_work})
    entry = cost_of_sales_entry(
        on=on, build=number, party=build.quote.customer.name, costs=costs, accounts=accounts_now()
    )
    return post(entry=entry, by=by, now=now, builds={number: build})


@transaction.atomic
def take_cost_of_sales_back(*, build: Acceptance, on: date, by: User, now: datetime) -> JournalEntry | None:
    """Turn the cost of sales of a build into work in progress again; what is billed later goes there too.

    None where the build is not finally invoiced.
    """
    pass_the_gate()
    number = str(build.quote.number)
    if not settled_among([number]):
        return None
    party = build.quote.customer.name
    entry = cost_taken_back_entry(
        on=on, build=number, party=party, costs=cost_of_sales(build), accounts=accounts_now()
    )
    return post(entry=entry, by=by, now=now, builds={number: build})
