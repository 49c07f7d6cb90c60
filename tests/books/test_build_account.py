"""The money of one build on one page: what it says, and that it asks the database no more for more."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

from django.db import connection
from django.test.utils import CaptureQueriesContext

from quotes.actions.books.payments import take_payment
from quotes.actions.books.worked_hours import enter_hours
from quotes.models import Acceptance
from quotes.queries.books.build import build_account
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import builder, desk


def queries(build: Acceptance) -> int:
    with CaptureQueriesContext(
        connection,
    ) as asked:
        build_account(build, NOW.date())
    return len(asked)


def happen(build: Acceptance, times: int) -> None:
    """So often: extra work, hours, a part invoiced and credited, a deposit by receipt, a draft."""
    for turn in range(times):
        cast.extra_work(build, words=f"Found {turn}")
        enter_hours(
            build=build,
            operation="head_on",
            person=builder(),
            on=NOW.date(),
            hours=Decimal("0.1"),
            by=builder(),
            now=NOW,
        )
        cast.credited(cast.invoiced(build, share_pct=Decimal(2)))
        take_payment(
            customer=build.quote.customer,
            on=NOW.date(),
            amount=Decimal(10),
            method="cash",
            key=f"deposit {turn}",
            build=build,
            deposit=True,
            by=desk(),
            now=NOW,
        )
        cast.drafted(build, share_pct=Decimal(turn + 1))


def test_the_account_asks_no_more_of_the_database_for_a_build_with_much_in_it(build: Acceptance) -> None:
    happen(build, 1)
    few = queries(build)

    happen(build, 4)

    assert queries(build) == few


def test_a_fresh_yes_has_all_of_it_left_to_invoice(build: Acceptance) -> None:
    account = build_account(build, NOW.date())

    assert (account.to_invoice_gross, account.accepted_gross) == (cast.GROSS, cast.GROSS)
    assert (account.up_to, account.agreed_gross) == (cast.GROSS + cast.LIMIT, cast.GROSS)
    assert account.deposit_to_ask == account.deposit_agreed == cast.DEPOSIT
    assert (account.documents, account.drafts, account.finally_invoiced) == ((), (), False)


def test_a_build_half_way_says_what_was_asked_for_and_what_is_held(build: Acceptance) -> None:
    cast.deposited(build)
    cast.invoiced(build, kinds=("consumables",))

    account = build_account(build, NOW.date())

    assert (account.asked_gross, account.to_invoice_gross) == (Decimal(72), cast.GROSS - 72)
    assert (account.deposit_asked, account.deposit_left) == (cast.DEPOSIT, cast.DEPOSIT - 72)
    assert account.deposits[0].unpaid == cast.DEPOSIT
    assert [document.number for document in account.documents] == ["D-2026-0001", "I-2026-0001"]


def test_a_deposit_paid_back_is_not_held(build: Acceptance) -> None:
    from quotes.actions.books.paying_back import refund

    paid: dict[str, Any] = {
        "customer": build.quote.customer,
        "on": NOW.date(),
        "method": "cash",
        "by": desk(),
        "now": NOW,
    }
    for number, amount in enumerate((100, 50)):
        take_payment(amount=Decimal(amount), key=f"in {number}", build=build, deposit=True, **paid)
    refund(amount=Decimal(70), key="out", from_item=None, deposit_of=build, **paid)

    account = build_account(build, NOW.date())

    assert [deposit.left for deposit in account.deposits] == [80, 0]
    assert account.deposit_asked == 80


def test_a_finished_build_moves_its_costs_to_the_cost_of_sales(build: Acceptance) -> None:
    from quotes.actions.books.build_costs import use_stock
    from quotes.models import JournalLine

    use_stock(
        build=build,
        description="Seals",
        component="",
        quantity=Decimal(1),
        cost=Decimal("18.50"),
        on=NOW.date(),
        by=desk(),
        now=NOW,
    )
    cast.invoiced(build, kinds=("labour",))
    assert not JournalLine.objects.filter(role="cost_of_parts").exists()

    cast.invoiced(build)

    assert JournalLine.objects.get(role="cost_of_parts").debit == Decimal("18.50")


def test_the_stored_sheet_is_plain_json(build: Acceptance) -> None:
    invoice = cast.invoiced(build)

    assert json.loads(json.dumps(invoice.sheet)) == invoice.sheet
