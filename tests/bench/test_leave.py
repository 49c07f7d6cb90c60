"""The customer's leave to strip, and what it costs."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.jobs import move
from quotes.actions.bench.leave import give_leave, save_teardown_prices
from quotes.actions.bench.refused import LeaveMissing, LeaveStands
from quotes.calc.bench.teardown.leave_sheet import LeaveSheet
from quotes.calc.bench.teardown.price import TeardownSums, put_back_operations, strip_operations
from quotes.models import IssuedForGood, Job, TeardownLeave
from quotes.queries.bench.teardown.leave import default_sums, prices_set, teardown_sums
from tests.bench.cast import NOW, ON, job, leave, leave_given
from tests.cast import builder, desk, shipped
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db


def given(of: Job, **change: Any) -> TeardownLeave:
    return give_leave(job=of, given=replace(leave_given(), **change), by=desk(), now=NOW)


def test_with_leave_the_builder_may_strip() -> None:
    row = job()
    leave(row)
    assert row.step == "leave_given"
    move(job=row, step="stripped", by=builder(), now=NOW)
    assert Job.objects.get().step == "stripped"


def test_leave_is_given_once_and_what_was_agreed_stands() -> None:
    row = job()
    first = given(row)
    assert given(row) == first
    with pytest.raises(LeaveStands, match="Marel Otten gave leave"):
        given(row, price=Decimal(1))
    with pytest.raises(IssuedForGood):
        TeardownLeave.objects.all().delete()


def test_the_paper_keeps_what_was_agreed_and_who_said_so() -> None:
    sheet = LeaveSheet.model_validate(leave(job(tag="blue 2")).sheet)
    assert [sheet.price, sheet.put_back, sheet.deposit] == [940, 1570, 470]
    assert (sheet.name, sheet.how, sheet.tag) == ("Marel Otten", "by signature", "blue 2")
    assert sheet.written_by == "Dessa Quill"


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"name": " "}, "write the full name"),
        ({"how": "telephone"}, "the number that was called"),
        ({"how": "nod"}, "not one of: signature"),
        ({"if_not": "sold"}, "not one of: reassembled"),
        ({"deposit": Decimal(1000)}, "more than the price of the strip-down"),
        ({"price": Decimal(-1)}, "price"),
    ],
)
def test_leave_by_nobody_or_of_nothing_is_refused(change: dict[str, Any], fault: str) -> None:
    row = job()
    with pytest.raises(ValidationError, match=fault):
        given(row, **change)
    with pytest.raises(LeaveMissing):
        move(job=row, step="stripped", by=builder(), now=NOW)


def test_leave_by_telephone_has_its_number() -> None:
    assert given(job(), how="telephone", telephone="000 555 0199").telephone == "000 555 0199"


def test_what_it_costs_is_worked_out_of_the_hours_that_take_it_apart_and_put_it_back() -> None:
    load_shipped()
    row = job()
    catalogue = shipped("four600")
    strip = sum(catalogue.operations[code].hours for code in strip_operations(catalogue, "loose"))
    back = sum(catalogue.operations[code].hours for code in put_back_operations(catalogue, "loose"))
    assert (strip, back) == (Decimal("11.10"), Decimal("14.28"))
    # 11.1 h at 85 and 14.28 h at 110, with 20 % of tax, in whole euro.
    assert teardown_sums(row, ON) == TeardownSums(Decimal(1132), Decimal(1885), Decimal(566))


def test_what_the_owner_sets_stands_and_the_chassis_comes_to_it() -> None:
    load_shipped()
    loose, fitted = job(), job(number="H4-20999", delivered="in_chassis")
    set_by_owner = TeardownSums(Decimal(600), Decimal(900), Decimal(300))
    save_teardown_prices(prices={"four600": set_by_owner})
    assert teardown_sums(loose, ON) == set_by_owner
    # 3.5 h out at 85 and 4.5 h in at 110, with tax: 357 and 594.
    assert teardown_sums(fitted, ON) == TeardownSums(Decimal(957), Decimal(1494), Decimal(300))
    assert prices_set(["four600", "twin650"], ON)["four600"] == set_by_owner
    assert prices_set(["twin650"], ON)["twin650"] == default_sums("twin650", ON)


def test_a_type_that_is_no_longer_there_costs_what_the_desk_writes(no_catalogue: None) -> None:
    assert teardown_sums(job(), ON).price == 0
