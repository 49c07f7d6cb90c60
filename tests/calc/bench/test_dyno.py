"""Which power that was read on the dyno stands for an engine as it is now."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

from quotes.calc.bench.leaving.dyno import PowerRead, PowerRun, powers_read
from tests.cast import shipped

NOON = datetime(2027, 2, 1, 12, tzinfo=UTC)
VALUES = (
    ("Peak power", "84.5", "kW"),
    ("at", "13800", "rpm"),
    ("Peak torque", "63", "Nm"),
    ("at", "11000", "rpm"),
)
BEFORE = PowerRun(
    after=False, on=NOON.date(), at=NOON, values=VALUES, dyno="the dyno here", correction="DIN", job="J-1",
    released_at=None,
)  # fmt: skip
HOUR = timedelta(hours=1)


def read(
    *runs: PowerRun, releases: tuple[datetime, ...] = (), tier: str | None = "mild"
) -> tuple[PowerRead, ...]:
    return powers_read(runs, releases, tier, shipped("four600"))


def why_not(*runs: PowerRun, releases: tuple[datetime, ...] = ()) -> list[str]:
    return [one.why_not for one in read(*runs, releases=releases)]


def test_a_power_read_before_the_work_stands_with_its_revs_and_the_tune_that_is_fitted() -> None:
    (one,) = read(BEFORE)
    assert one.why_not == ""
    assert (one.measured.figure, one.measured.rpm, one.measured.tier) == (
        Decimal("84.5"),
        Decimal(13800),
        "mild",
    )
    assert "the dyno here, corrected by DIN" in one.words


def test_a_power_read_after_the_work_stands_once_the_engine_is_handed_over() -> None:
    after = replace(BEFORE, after=True)
    assert why_not(after) == ["its build has not been handed over yet"]
    handed_over = NOON + HOUR
    assert why_not(replace(after, released_at=handed_over), releases=(handed_over,)) == [""]


def test_a_later_build_ends_what_was_read_before_it() -> None:
    built = NOON + HOUR
    assert why_not(replace(BEFORE, released_at=built), releases=(built,)) == [
        "the engine has been built anew since"
    ]
    after = replace(BEFORE, after=True, released_at=built)
    assert why_not(after, releases=(built, built + HOUR)) == ["the engine has been built anew since"]


def test_the_latest_stands_and_the_others_say_so() -> None:
    earlier = replace(BEFORE, on=date(2027, 1, 4), job="J-0")
    assert [(one.job, one.why_not) for one in read(earlier, BEFORE)] == [
        ("J-1", ""),
        ("J-0", "a later one stands"),
    ]


def test_a_figure_that_can_not_be_does_not_stand_and_keeps_no_quote_back() -> None:
    slip = replace(BEFORE, values=(("Peak power", "845", "kW"),))
    said = "845 can't be so: from 26 to 176 kW for the 600 inline four"
    assert why_not(slip, replace(BEFORE, on=date(2027, 1, 4))) == [said, ""]


def test_what_is_no_power_is_passed_over() -> None:
    for values in (
        (),
        (("Peak torque", "63", "Nm"),),
        (("Peak power", "0", "kW"),),
        (("Peak power", "84", "Nm"),),
    ):
        assert read(replace(BEFORE, values=values)) == ()


def test_revs_that_are_none_are_left_out() -> None:
    for revs in (("at", "0", "rpm"), ("at", "soon", "rpm"), ("at", "13800", "")):
        (one,) = read(replace(BEFORE, values=(VALUES[0], revs)))
        assert one.measured.rpm is None
