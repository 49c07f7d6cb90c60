"""Which evidence counts: by hand, withdrawn, and of a part that still runs."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.learning.by_hand import enter_evidence, faults_of, withdraw_evidence
from quotes.models import Evidence, RenewedPart
from tests.bench.cast import built_job
from tests.cast import owner
from tests.learning.cast import CLUTCH, clutch, earlier, entered
from tests.quotes.cast import NOW, ON

# The rows themselves are kept on both databases, in test_approving.py.
pytestmark = pytest.mark.one_database


WRONG: tuple[tuple[dict[str, Any], str, str], ...] = (
    ({"engine": " "}, "engine", "say which engine"),
    ({"on": date(2026, 11, 26)}, "on", "2026-11-26 is not a day from 1990-01-01 to today, 2026-11-25."),
    ({"amount": Decimal(0)}, "amount", "0 is not above 0"),
    ({"entry": Decimal(4000)}, "entry", "4000 is not from 0 to below 4000"),
    ({"seen_good_at": Decimal(100)}, "seen_good_at", "Only for a set found past its limit"),
    ({"outcome": "past_limit", "seen_good_at": Decimal(4000)}, "seen_good_at", "4000 is not from 0 to"),
    ({"type_code": "v8"}, "type_code", "v8 is no engine type"),
    ({"component": "oil"}, "component", "oil has no life on the"),
    ({"duty": "motocross"}, "unit", "can't be converted"),
    ({"tier": "wild"}, "unit", "no tune wild"),
)


def test_what_was_written_down_wrong_is_refused_at_its_field() -> None:
    for change, field, words in WRONG:
        found = faults_of(earlier(**change), ON)
        assert words in found[field]
    assert faults_of(earlier(), ON) == {}


def test_a_row_is_kept_once_signed_and_dated() -> None:
    key = uuid4()
    row = enter_evidence(told=earlier(), key=key, by=owner(), now=NOW)

    assert enter_evidence(told=earlier(), key=key, by=owner(), now=NOW) == row
    assert (row.by, row.at, row.source) == (owner(), NOW, "Bench book 5")
    (seen,) = clutch().counting
    assert (seen.left, seen.recorded, seen.teardown) == (4000, "4,000 miles", "earlier:H4-21103:2024-07-08")


def test_a_withdrawn_row_stays_on_record_and_counts_no_more() -> None:
    row = entered()
    with pytest.raises(ValidationError, match="say why"):
        withdraw_evidence(evidence=row, because="", by=owner(), now=NOW)

    withdraw_evidence(evidence=row, because="It was another engine", by=owner(), now=NOW)

    (seen,) = clutch().rows
    assert seen.put_aside.endswith(": It was another engine")
    assert clutch().proposal is None


def test_a_part_that_still_runs_counts_where_it_runs_and_joins_when_it_comes_out() -> None:
    """Its own age stands in the sums of its engine: counted here as well it would count twice."""
    of = built_job()
    Evidence.objects.create(
        job=of,
        type_code="four600",
        component=CLUTCH,
        duty="sprint",
        tier="refresh",
        outcome="sound",
        unit="mi",
        entry=0,
        exit=4100,
        ran=4050.0,
        ran_at_entry=0.0,
        on=ON,
    )
    (seen,) = clutch().rows
    assert seen.put_aside == "still runs in H4-20417: counted there by its own run"

    RenewedPart.objects.create(engine=of.engine, component=CLUTCH, at=4100, unit="mi", on=ON)

    (seen,) = clutch().rows
    assert (seen.put_aside, seen.left) == ("", 4050.0)


def test_what_was_seen_of_another_duty_counts_by_how_hard_it_was() -> None:
    entered(duty="endurance")

    (seen,) = clutch().counting
    assert seen.left == pytest.approx(4000 * 0.44)
