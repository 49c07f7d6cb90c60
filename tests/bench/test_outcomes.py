"""What became of a build's service is told once, can be taken back, and moves nothing by itself."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, connection, transaction

from quotes.actions.accepting import mark_done
from quotes.actions.bench.outcomes import (
    ChangedSince,
    ServiceTold,
    ToldAlready,
    set_shop_factor,
    take_back_factor,
    take_back_outcome,
    tell_outcome,
)
from quotes.actions.refused import Refused
from quotes.models import Acceptance, ServiceOutcome, ShopFactorChange, Workshop
from quotes.queries.bench.ages.calibration import calibration
from quotes.queries.bench.ages.outcomes import build_to_tell, builds_of, service_to_tell, untold, watched
from quotes.queries.workshop import shop_rules
from tests.bench.cast import job
from tests.books.cast import build
from tests.cast import builder, desk, owner
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped

LATER = NOW + timedelta(days=200)
RAN = ServiceTold(end="ran", on=ON + timedelta(days=150), ran=Decimal(2000))


@pytest.fixture
def left(db: None) -> Acceptance:
    """A mild build for 2,000 endurance miles that left the bench; its chance was said to be 92 %."""
    load_shipped()
    return mark_done(acceptance=build(), by=desk(), now=NOW)


def tell(of: Acceptance, **change: Any) -> ServiceOutcome:
    told = replace(RAN, **{name: value for name, value in change.items() if name != "key"})
    return tell_outcome(build=of, told=told, key=change.get("key") or uuid4(), by=desk(), now=LATER)


def test_the_promise_is_copied_from_the_accepted_sheet(left: Acceptance) -> None:
    row = tell(left)
    chance = left.revision.sheet["comparison"]["options"][1]["chance"]
    assert (row.tier, row.duty, row.planned, row.unit) == ("mild", "endurance", Decimal(2000), "mi")
    assert (row.chance, row.chance_low, row.chance_high) == (chance["value"], chance["low"], chance["high"])
    assert row.wear_hazard + row.hands_hazard == pytest.approx(-math.log(chance["value"]))


def test_an_engine_that_stopped_half_way_counts_with_what_it_ran(left: Acceptance) -> None:
    row = tell(left, end="stopped", ran=Decimal(1000), stopped_by="valve_spring")
    (one,) = watched()
    assert one.stopped
    assert one.promised == pytest.approx(-math.log(row.chance) / 2)


@pytest.mark.parametrize(("end", "ran"), [("stopped", 2300), ("outside", 900), ("ran", 2000)])
def test_no_stop_of_ours_is_one_after_the_planned_service_or_one_that_no_estimate_counts(
    left: Acceptance, end: str, ran: int
) -> None:
    tell(left, end=end, ran=Decimal(ran))
    assert [one.stopped for one in watched()] == [False]


def test_what_nobody_knows_counts_nowhere(left: Acceptance) -> None:
    tell(left, end="unknown", ran=None)
    assert watched() == []
    assert calibration().unknown == 1


def test_a_build_is_told_of_once_and_sent_twice_it_is_kept_once(left: Acceptance) -> None:
    key = uuid4()
    assert tell(left, key=key).pk == tell(left, key=key).pk
    with pytest.raises(ToldAlready, match="It is written down already, on 24 April 2027: it did not stop"):
        tell(left, end="stopped")


def test_what_is_taken_back_counts_no_more_and_is_told_anew(left: Acceptance) -> None:
    row = tell(left, end="stopped", ran=Decimal(300))
    with pytest.raises(ValidationError, match="say why it is taken back"):
        take_back_outcome(outcome=row, because=" ", by=desk(), now=LATER)
    take_back_outcome(outcome=row, because="It was another engine", by=desk(), now=LATER)
    assert watched() == []
    tell(left)
    assert [one.stopped for one in watched()] == [False]
    assert [told.end for _, told in builds_of(left.quote.engine) if told] == ["ran"]


@pytest.mark.parametrize(
    ("change", "field", "said"),
    [
        ({"end": "burst"}, "end", "Nothing is picked"),
        ({"ran": None}, "ran", "how far it ran is needed"),
        ({"ran": Decimal(-1)}, "ran", "-1 is not between 0 and 100000"),
        ({"on": ON + timedelta(days=999)}, "on", "has not come yet"),
        ({"on": ON - timedelta(days=9)}, "on", "is before the build was said yes to"),
        ({"end": "stopped", "stopped_by": "turbo"}, "stopped_by", "“turbo” is no part of this engine"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(
    left: Acceptance, change: dict[str, Any], field: str, said: str
) -> None:
    with pytest.raises(ValidationError, match=said) as refused:
        tell(left, **change)
    assert list(refused.value.message_dict) == [field]


def test_the_row_is_frozen_but_for_taking_it_back(left: Acceptance) -> None:
    tell(left)
    with pytest.raises(DatabaseError, match="issued for good"), transaction.atomic():
        connection.cursor().execute("UPDATE quotes_serviceoutcome SET wear_hazard = 0")


def test_an_engine_that_comes_back_is_asked_about_its_last_build(left: Acceptance) -> None:
    job(quote=left.quote, service_amount=Decimal(4100))
    back = job(engine=left.quote.engine, service_amount=Decimal(5650), now=LATER)
    asked = service_to_tell(back)
    assert asked is not None
    assert (asked.build, asked.ran) == (left, Decimal(1550))
    tell(left)
    assert build_to_tell(back) is None
    assert not untold()


def test_without_a_reading_at_the_door_it_has_run_since_what_the_quote_was_asked_for(
    left: Acceptance,
) -> None:
    back = job(engine=left.quote.engine, service_amount=Decimal(5000), now=LATER)
    asked = service_to_tell(back)
    assert asked is not None
    assert asked.ran == Decimal(900), "4,100 miles stood in the request"


def change_to(factor: str, expected: str = "1") -> ShopFactorChange:
    return set_shop_factor(
        factor=Decimal(factor), reason="Three seasons", expected=Decimal(expected), by=owner(), now=LATER
    )


def test_the_factor_is_set_signed_and_issued_quotes_stay(left: Acceptance) -> None:
    before = left.revision.sheet_sha256
    made = change_to("1.3")
    assert (made.before, made.after, made.by) == (Decimal(1), Decimal("1.3"), owner())
    assert shop_rules(ON).shop_factor == 1.3
    left.revision.refresh_from_db()
    assert left.revision.sheet_sha256 == before
    assert tell(left).shop_factor == 1.0, "a build counts with the factor of its own quote"


def test_a_change_is_refused_without_a_reason_and_over_somebody_elses(left: Acceptance) -> None:
    with pytest.raises(ValidationError, match="say why it is changed"):
        set_shop_factor(factor=Decimal(2), reason="", expected=Decimal(1), by=owner(), now=LATER)
    with pytest.raises(ValidationError, match="It is 1 already"):
        change_to("1")
    change_to("1.3")
    with pytest.raises(ChangedSince, match=r"The factor is 1\.3 by now"):
        change_to("2")
    assert Workshop.objects.get().shop_factor == Decimal("1.3")


def test_the_latest_change_can_be_taken_back_once(left: Acceptance) -> None:
    first, second = change_to("1.3"), change_to("1.5", "1.3")
    with pytest.raises(Refused, match="Another change has been made since"):
        take_back_factor(change=first, reason="A slip", by=owner(), now=LATER)
    back = take_back_factor(change=second, reason="A slip", by=owner(), now=LATER + timedelta(days=1))
    assert (back.after, back.takes_back) == (Decimal("1.3"), second)
    with pytest.raises(Refused, match="itself a taking back"):
        take_back_factor(change=back, reason="A slip", by=owner(), now=LATER)


def test_the_builder_may_tell_as_well(left: Acceptance) -> None:
    tell_outcome(build=left, told=RAN, key=uuid4(), by=builder(), now=LATER)
    assert calibration().whole.services == 1
