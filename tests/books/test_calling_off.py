"""A build that is called off after the yes: it leaves the bench, and what was done is still owed."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.accepting import mark_done
from quotes.actions.bench.declining import send_back
from quotes.actions.bench.jobs import move
from quotes.actions.books.build_costs import use_stock
from quotes.actions.books.calling_off import call_off
from quotes.actions.books.drafts import start_deposit
from quotes.actions.books.paying_back import refund
from quotes.actions.books.payments import take_payment
from quotes.actions.books.refused import CalledOffAlready, NothingToInvoice, NotToBeCalledOff
from quotes.actions.books.worked_hours import enter_hours
from quotes.models import Acceptance, CalledOff, ExtraWork, Payment
from quotes.queries.bench.parts.wanted import open_builds
from quotes.queries.bench.states import state_of
from quotes.queries.books import waiting
from quotes.queries.books.build import build_account
from quotes.queries.slots import jobs_in_hand
from quotes.queries.today import builds_in_hand, said_yes_since
from tests.bench.cast import built_job, leave
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books, builder, desk

BY_HAND: dict[str, Any] = {"on": NOW.date(), "now": NOW}


def off(build: Acceptance, **change: Any) -> CalledOff:
    fields: dict[str, Any] = {"reason": "The engine is sold", "said_by": "Marel Otten", "by": desk()}
    return call_off(build=build, **(fields | BY_HAND | change))


def worked(build: Acceptance, operation: str = "cases_split", hours: str = "2") -> None:
    enter_hours(
        build=build, operation=operation, person=builder(), hours=Decimal(hours), by=builder(), **BY_HAND
    )


def said_yes() -> list[Acceptance]:
    return said_yes_since(NOW - timedelta(days=30)).newest


def left(build: Acceptance) -> dict[str, str]:
    account = build_account(build, NOW.date())
    return {line.key: f"{line.quantity.normalize():f}" for line in account.to_invoice}


def test_it_leaves_the_bench_the_diary_the_orders_and_the_lists_of_money(build: Acceptance) -> None:
    lists = (builds_in_hand, jobs_in_hand, open_builds, waiting.deposits_to_ask, said_yes)
    assert all(len(read()) == 1 for read in lists)

    off(build)

    assert [len(read()) for read in lists] == [0, 0, 0, 0, 0]


def test_what_was_done_so_far_is_left_to_invoice_and_nothing_else(build: Acceptance) -> None:
    worked(build)
    shelf: dict[str, Any] = {"description": "Springs", "component": "S-VSP", "cost": Decimal(40)}
    use_stock(build=build, quantity=Decimal(4), by=books(), **shelf, **BY_HAND)

    off(build)

    assert left(build) == {"option:labour:cases_split": "2", "option:part:S-VSP": "4"}


def test_where_nothing_was_done_nothing_is_owed_and_the_deposit_goes_back(build: Acceptance) -> None:
    paid = take_payment(
        customer=build.quote.customer,
        amount=Decimal(500),
        method="cash",
        key="deposit",
        build=build,
        deposit=True,
        by=desk(),
        **BY_HAND,
    )
    off(build)

    account = build_account(build, NOW.date())
    assert (account.to_invoice, account.to_pay_back) == ((), Decimal(500))
    assert list(Payment.objects.all()) == [paid]
    with pytest.raises(NothingToInvoice, match="before it was called off"):
        cast.drafted(build)


def test_the_invoice_of_the_work_so_far_takes_the_deposit_off_and_owes_the_rest(
    build: Acceptance, sound_ledger: None
) -> None:
    cast.deposited(build)
    worked(build)
    off(build)
    rest = cast.DEPOSIT - Decimal(264)  # two hours at 110, with 20 %
    assert build_account(build, NOW.date()).to_pay_back == rest

    invoice = cast.invoiced(build)

    assert invoice.due == -rest
    account = build_account(build, NOW.date())
    assert (account.to_invoice, account.finally_invoiced) == ((), True)


def to_settle() -> list[tuple[str, Decimal]]:
    found = waiting.called_off_to_settle(NOW.date())
    return [(str(one.called_off.build.quote.number), one.held) for one in found]


def test_the_day_sheet_says_it_until_the_deposit_is_paid_back(build: Acceptance) -> None:
    receipt: dict[str, Any] = {"customer": build.quote.customer, "method": "cash", "by": books(), **BY_HAND}
    take_payment(amount=Decimal(500), key="in", build=build, deposit=True, **receipt)
    assert to_settle() == []

    off(build)
    assert to_settle() == [("Q-2026-0001", Decimal(500))]

    refund(amount=Decimal(500), key="out", deposit_of=build, **receipt)
    assert to_settle() == []


@pytest.mark.parametrize("deposit", [True, False])
def test_the_day_sheet_says_it_until_what_was_done_is_invoiced(build: Acceptance, deposit: bool) -> None:
    if deposit:
        cast.deposited(build)
    worked(build)
    off(build)
    assert to_settle() == [("Q-2026-0001", cast.DEPOSIT / Decimal("1.2") if deposit else 0)]

    cast.invoiced(build)
    assert to_settle() == []


def test_one_called_off_with_nothing_done_and_nothing_held_is_over(build: Acceptance) -> None:
    off(build)
    assert to_settle() == []


def test_a_strip_down_is_owed_at_the_price_that_was_agreed_for_it(db: None) -> None:
    job = built_job()
    assert job.quote is not None
    leave(job)
    move(job=job, step="stripped", by=builder(), now=NOW)
    build = job.quote.acceptance
    steps = {step.kind: step.code for step in cast.comparison().option("mild").work}
    for operation in steps.values():
        worked(build, operation)

    off(build)

    opened = {"strip", "clean", "inspect", "office"}
    later = {f"option:labour:{code}" for kind, code in steps.items() if kind not in opened}
    assert left(build).keys() == {"strip-down:1"} | later
    assert build_account(build, NOW.date()).lines[0].line.unit_price == Decimal("783.33")


def test_the_engine_of_a_build_called_off_goes_back(db: None) -> None:
    job = built_job()
    assert job.quote is not None
    off(job.quote.acceptance)
    assert state_of(job) == "called off"

    send_back(job=job, by=desk(), now=NOW, note="Fetched")

    assert state_of(job) == "sent back"


def test_extra_work_that_waits_is_taken_back_and_none_is_offered_any_more(build: Acceptance) -> None:
    cast.extra_work(build, accepted=None)

    off(build)

    assert ExtraWork.objects.get().state == "withdrawn"
    with pytest.raises(CalledOffAlready):
        cast.extra_work(build, words="More", accepted=None)


def test_no_deposit_is_asked_and_nobody_says_that_it_is_done(build: Acceptance) -> None:
    off(build)

    with pytest.raises(CalledOffAlready, match=r"Marel Otten called .* off on"):
        start_deposit(build=build, by=books(), now=NOW)
    with pytest.raises(CalledOffAlready):
        mark_done(acceptance=build, by=builder(), now=NOW)


def test_it_is_called_off_once_and_a_second_press_is_the_same(build: Acceptance) -> None:
    first = off(build)
    assert off(build) == first

    with pytest.raises(CalledOffAlready):
        off(build, reason="No money")


def test_a_build_that_is_invoiced_to_the_end_or_done_is_not_called_off(build: Acceptance) -> None:
    mark_done(acceptance=build, by=builder(), now=NOW)
    with pytest.raises(NotToBeCalledOff, match="invoice it instead"):
        off(build)

    cast.invoiced(build)
    with pytest.raises(NotToBeCalledOff, match="credit note"):
        off(build)


@pytest.mark.parametrize(
    ("field", "value"),
    [("reason", " "), ("said_by", ""), ("on", date(2020, 1, 1)), ("on", NOW.date() + timedelta(days=1))],
)
def test_what_is_not_said_or_can_not_be_is_refused_at_its_field(
    build: Acceptance, field: str, value: Any
) -> None:
    with pytest.raises(ValidationError) as told:
        off(build, **{field: value})

    assert list(told.value.message_dict) == [field]
    assert not CalledOff.objects.exists()
