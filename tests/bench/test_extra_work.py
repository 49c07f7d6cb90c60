"""Extra work on the bench: within the limit, or asked first; a no to rider safety takes a signature."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, connection, transaction

from quotes.actions.bench.advice import keep_declined
from quotes.actions.bench.refused import MustAsk, NotBuiltSo
from quotes.actions.books.extra_work import (
    NOTHING_NAMED,
    About,
    answer_extra_work,
    offer_extra_work,
    withdraw_extra_work,
)
from quotes.actions.books.refused import AlreadyAnswered
from quotes.models import Acceptance, ExtraWork, Workshop
from quotes.queries.bench.again.committed import committed_of, promised_on
from quotes.queries.bench.again.declined import declined_of
from quotes.queries.books.build import build_account
from tests.bench.cast import job
from tests.books import cast
from tests.books.cast import GROSS, LATER, LIMIT, NOW
from tests.cast import builder, desk

SAFETY = About(touches=("safety",), components=("clutch_friction",), rider_safety=True)


def extra(build: Acceptance, price: str, about: About = NOTHING_NAMED, **options: Any) -> ExtraWork:
    """One part at a price before tax; with tax it is a fifth more."""
    lines = [cast.line(unit_price=Decimal(price), quantity=Decimal(1))]
    return offer_extra_work(
        build=build, words=f"Found at {price}", lines=lines, about=about, by=builder(), now=NOW, **options
    )


def answer(row: ExtraWork, accepted: bool, how: str = "In writing") -> ExtraWork:
    return answer_extra_work(extra=row, accepted=accepted, name="Marel Otten", how=how, by=None, now=LATER)


@pytest.fixture
def build(db: None) -> Acceptance:
    return cast.build()


def test_small_work_is_done_within_the_limit_and_counts_against_it(build: Acceptance) -> None:
    row = extra(build, "100", within_limit=True)

    assert (row.state, row.old_gross, row.new_gross) == ("within", GROSS, GROSS + 120)
    assert committed_of(build).left == LIMIT - 120


def test_three_small_ones_never_told_add_up_to_one_that_must_be_asked(build: Acceptance) -> None:
    for price in ("50", "60"):
        extra(build, price, within_limit=True)

    with pytest.raises(MustAsk, match="goes over the sum that may be spent without asking"):
        extra(build, "70", within_limit=True)

    assert ExtraWork.objects.count() == 2


def test_what_moves_the_date_is_asked_even_if_it_costs_little(build: Acceptance) -> None:
    with pytest.raises(MustAsk, match="moves the day"):
        extra(build, "1", About(touches=("date",)), within_limit=True)


def test_an_offer_says_why_it_is_asked_and_holds_up_nothing_it_does_not_touch(build: Acceptance) -> None:
    row = extra(build, "400")

    assert (row.touches, row.stops, row.old_gross, row.new_gross) == (["sum"], [], GROSS, GROSS + 480)


def test_work_within_the_limit_is_invoiced_and_stays_inside_the_yes(build: Acceptance) -> None:
    extra(build, "100", within_limit=True)

    account = build_account(build, NOW.date())
    assert account.to_invoice_gross == GROSS + 120
    assert account.up_to == GROSS + LIMIT


def test_a_yes_moves_the_promise_to_the_day_that_was_offered(build: Acceptance) -> None:
    later = date(2027, 3, 30)
    row = extra(build, "400", About(touches=("date",), new_ready_on=later))
    assert promised_on(build) == build.ready_on

    answer(row, accepted=True)

    assert promised_on(build) == later


def test_the_customer_answers_himself_and_nobody_writes_it_down_for_him(build: Acceptance) -> None:
    row = answer(extra(build, "400"), accepted=True, how="In writing, on the customer's own page")

    assert row.answered_how == "In writing, on the customer's own page"


@pytest.mark.parametrize("how", ["By telephone, 000 555 0199", "Here in the workshop"])
def test_rider_safety_is_not_declined_without_a_signature(build: Acceptance, how: str) -> None:
    row = extra(build, "40", SAFETY)

    with pytest.raises(ValidationError, match="is no signature"):
        answer(row, accepted=False, how=how)

    assert answer(row, accepted=False, how="In writing, signed").state == "declined"


def test_an_owner_who_builds_nothing_unsafe_takes_no_refusal(build: Acceptance) -> None:
    row = extra(build, "40", SAFETY)
    Workshop.objects.update(refuses_unsafe=True)

    with pytest.raises(NotBuiltSo, match="does not build an engine without it"):
        answer(row, accepted=False, how="In writing, signed")


def test_an_offer_is_taken_back_only_while_nobody_has_answered(build: Acceptance) -> None:
    waiting, said = extra(build, "400"), answer(extra(build, "300"), accepted=True)

    assert withdraw_extra_work(extra=waiting).state == "withdrawn"
    with pytest.raises(AlreadyAnswered):
        withdraw_extra_work(extra=said)


def test_what_was_done_within_the_limit_can_not_be_undone_in_the_database(build: Acceptance) -> None:
    row = extra(build, "100", within_limit=True)

    with pytest.raises(IntegrityError, match="for good"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE quotes_extrawork SET state = 'withdrawn' WHERE id = %s", [row.pk])


def test_declined_advice_is_one_list_wherever_it_was_said(build: Acceptance) -> None:
    engine_job = job(quote=build.quote)
    answer(extra(build, "40", SAFETY), accepted=False, how="In writing, signed")
    key = uuid4()
    for _ in range(2):
        keep_declined(
            job=engine_job,
            words="A new water pump seal",
            risk="It may weep before the season is over.",
            rider_safety=False,
            said_by="Marel Otten",
            how="By telephone, 000 555 0199",
            key=key,
            by=desk(),
            now=NOW,
        )

    assert [(one.words, one.rider_safety) for one in declined_of(engine_job)] == [
        ("A new water pump seal", False),
        ("Q-2026-0001/1: Found at 40", True),
    ]
