"""Hours on a build: by operation, person and day, corrected until an invoice rests on them."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.books.refused import HoursInvoiced
from quotes.actions.books.worked_hours import correct_hours, enter_hours
from quotes.models import Acceptance, WorkedHours
from quotes.queries.books.build import build_account
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import builder, desk


def enter(build: Acceptance, hours: str = "6.5", **change: Any) -> WorkedHours:
    fields: dict[str, Any] = {
        "operation": "cases_split",
        "person": builder(),
        "on": NOW.date(),
        "by": builder(),
        "now": NOW,
    }
    return enter_hours(build=build, hours=Decimal(hours), **(fields | change))


def test_hours_stand_beside_those_quoted(build: Acceptance) -> None:
    enter(build)
    enter(build, "0.5", person=desk())
    enter(build, "1", operation="")

    account = build_account(build, NOW.date())

    assert [(row.operation, row.quoted, row.clocked) for row in account.hours] == [
        ("cases_split", Decimal("6.8"), Decimal(7)),
        ("head_on", Decimal("7.5"), Decimal(0)),
        ("", Decimal(0), Decimal(1)),
    ]
    assert (account.hours_quoted, account.hours_clocked) == (Decimal("14.3"), Decimal(8))


@pytest.mark.parametrize("hours", ["0", "-1", "24.01"])
def test_hours_that_do_not_fit_in_a_day_are_refused(build: Acceptance, hours: str) -> None:
    with pytest.raises(ValidationError) as told:
        enter(build, hours)

    assert "hours" in str(told.value)
    assert not WorkedHours.objects.exists()


def test_a_clock_left_running_is_noticed(build: Acceptance) -> None:
    enter(build, "14")

    with pytest.raises(ValidationError, match=r"11 h: Bram Tolley has 14 h.*at most 10 are left of the day"):
        enter(build, "11", operation="head_on")


def test_two_people_work_on_one_engine_on_one_day(build: Acceptance) -> None:
    enter(build, "14")

    assert enter(build, "11", person=desk()).pk


def test_hours_of_a_day_to_come_are_refused(build: Acceptance) -> None:
    with pytest.raises(ValidationError, match="has not come yet"):
        enter(build, on=NOW.date() + timedelta(days=1))


def test_hours_are_corrected(build: Acceptance) -> None:
    row = correct_hours(worked=enter(build), hours=Decimal(5), by=desk(), now=NOW, note="Clock left on")

    assert row is not None
    assert (row.hours, row.entered_by, row.note) == (Decimal(5), "Dessa Quill", "Clock left on")


def test_nought_takes_hours_off(build: Acceptance) -> None:
    assert correct_hours(worked=enter(build), hours=Decimal(0), by=desk(), now=NOW) is None
    assert not WorkedHours.objects.exists()


def test_hours_that_an_invoice_rests_on_are_not_corrected(build: Acceptance) -> None:
    cast.keep_settings(labour_by="clocked")
    worked = enter(build)
    invoice = cast.invoiced(build)

    with pytest.raises(HoursInvoiced, match=r"on I-2026-0001. Credit it first"):
        correct_hours(worked=worked, hours=Decimal(5), by=desk(), now=NOW)

    cast.credited(invoice)
    assert correct_hours(worked=worked, hours=Decimal(5), by=desk(), now=NOW)


def test_hours_are_for_the_margin_only_where_labour_is_asked_for_as_quoted(build: Acceptance) -> None:
    worked = enter(build)
    cast.invoiced(build)

    assert correct_hours(worked=worked, hours=Decimal(5), by=desk(), now=NOW)
