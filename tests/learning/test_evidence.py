"""Which evidence counts: by hand, withdrawn, and of a part that still runs."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from django.conf import settings
from django.core.exceptions import ValidationError

from quotes.actions.bench.after import Failure, keep_failure
from quotes.actions.learning.by_hand import enter_evidence, faults_of, withdraw_evidence
from quotes.imports.demo.earlier import enter_earlier
from quotes.models import Engine, Evidence, Job, RenewedPart
from quotes.queries.bench.ages.after import with_after
from quotes.queries.learning.lives import life_of, lives_with_evidence
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
    ({"component": "engine_oil"}, "component", "engine_oil has no life on the"),
    ({"duty": "motocross"}, "unit", "can't be converted"),
    ({"tier": "wild"}, "unit", "no tune wild"),
)


def test_what_was_written_down_wrong_is_refused_at_its_field() -> None:
    for change, field, words in WRONG:
        found = faults_of(earlier(**change), ON)
        assert words in found[field]
    assert faults_of(earlier(), ON) == {}


def test_what_is_changed_at_its_own_interval_has_no_life_to_learn() -> None:
    assert life_of("engine_oil", "miles") is None


def test_a_row_is_kept_once_signed_and_dated() -> None:
    key = uuid4()
    row = enter_evidence(told=earlier(), key=key, by=owner(), now=NOW)

    assert enter_evidence(told=earlier(), key=key, by=owner(), now=NOW) == row
    assert (row.by, row.at, row.source) == (owner(), NOW, "Bench book 5")
    (seen,) = clutch().counting
    assert (seen.left, seen.recorded, seen.teardown) == (4000, "4,000 miles", "earlier:H4-21103:2024-07-08")
    assert seen.source == "Bench book 5; entered by Orla Venn on 2026-11-25"


def test_a_withdrawn_row_stays_on_record_and_counts_no_more() -> None:
    row = entered()
    with pytest.raises(ValidationError, match="say why"):
        withdraw_evidence(evidence=row, because="", by=owner(), now=NOW)

    withdraw_evidence(evidence=row, because="It was another engine", by=owner(), now=NOW)

    (seen,) = clutch().rows
    assert seen.put_aside.endswith(": It was another engine")
    assert clutch().proposal is None


def seen_at_bench(of: Job, outcome: str, **change: Any) -> None:
    """The clutch, at a teardown after 4,100 miles."""
    fields = {
        "type_code": "four600",
        "component": CLUTCH,
        "duty": "sprint",
        "tier": "refresh",
        "unit": "mi",
        "entry": 0,
        "exit": 4100,
        "ran": 4050.0,
        "ran_at_entry": 0.0,
        "on": ON,
    }
    Evidence.objects.create(job=of, outcome=outcome, **(fields | change))


def test_a_part_that_still_runs_counts_where_it_runs_and_joins_when_it_comes_out() -> None:
    """Its own age stands in the sums of its engine: counted here as well it would count twice."""
    of = built_job()
    seen_at_bench(of, "sound")
    (seen,) = clutch().rows
    assert seen.put_aside == "still runs in H4-20417: counted there by its own run"

    RenewedPart.objects.create(engine=of.engine, component=CLUTCH, at=4100, unit="mi", on=ON)

    (seen,) = clutch().rows
    assert (seen.put_aside, seen.left) == ("", 4050.0)


def slipped(of: Job) -> Evidence:
    """The clutch's failure, reported of an engine with 4,100 miles."""
    told = Failure(
        component=CLUTCH, words="Slips", outcome="failed", on=ON, who_pays="life", shop_share_pct=Decimal(0)
    )
    engine = with_after(Engine.objects.filter(pk=of.engine_id)).get()
    row = keep_failure(engine=engine, told=told, key=uuid4(), by=owner(), now=NOW)
    return Evidence.objects.get(failure=row)


@pytest.mark.parametrize(("renewed", "watched_from"), [(False, 3000), (True, 0)])
def test_a_failure_counts_from_when_that_very_part_was_last_seen_sound(
    renewed: bool, watched_from: int
) -> None:
    of = built_job()
    seen_at_bench(of, "sound", exit=3000, ran=2950.0)
    if renewed:
        RenewedPart.objects.create(engine=of.engine, component=CLUTCH, at=1000, unit="mi", on=ON)

    row = slipped(of)

    assert row.entry == watched_from
    assert row.ran_at_entry == (2950.0 if watched_from else 0.0)


def test_a_failure_that_was_reported_and_seen_again_at_the_strip_down_is_one() -> None:
    of = built_job()
    slipped(of)
    seen_at_bench(of, "failed")

    reported, at_the_bench = clutch().rows
    assert (reported.put_aside, reported.left) == ("", 4100)
    assert at_the_bench.put_aside == "the failure that was reported on 2026-11-25"


def test_what_was_seen_of_another_duty_counts_by_how_hard_it_was() -> None:
    entered(duty="endurance")

    (seen,) = clutch().counting
    assert seen.left == pytest.approx(4000 * 0.44)


def test_the_demos_earlier_years_show_much_little_and_survivors_alone_once() -> None:
    folder = Path(settings.BASE_DIR) / "fixtures" / "demo"
    made = enter_earlier(folder=folder, by=owner(), now=NOW)

    assert made == Evidence.objects.filter(on__lt=ON - timedelta(days=2 * 365 - 60)).count() > 30
    assert enter_earlier(folder=folder, by=owner(), now=NOW) == 0
    lives = {life.about.component: life for life in lives_with_evidence()}
    assert lives["rings"].counts.of_one_mode > 10
    assert (lives["cam_chain"].counts.failed, lives["cam_chain"].counts.past_limit) == (0, 0)
    mixed = lives[CLUTCH].counts
    assert all((mixed.failed, mixed.past_limit, mixed.sound))
    assert not sum(life.held for life in lives.values())
