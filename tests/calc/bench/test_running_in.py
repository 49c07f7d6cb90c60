"""The running-in card: by what is new, by rings and bore, and by the manual where it was entered."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.bench.leaving.running_in import Bore, Rings, RunningInFigures, running_in

RINGS = ("rings", "piston", "head_gasket", "valve_seat")


@pytest.mark.parametrize(
    ("rings", "bore", "miles"),
    [("thin_steel", "plated", 150), ("cast_iron", "plated", 300), ("thin_steel", "iron", 300)],
)
def test_iron_takes_longer_than_steel_on_plating(rings: Rings, bore: Bore, miles: int) -> None:
    card = running_in(RINGS, rings=rings, bore=bore, by_hours=False)

    assert [card.oil_at, card.revs_until, card.unit, card.rev_limit_pct] == [miles, miles, "mi", 70]


def test_an_engine_that_counts_hours_is_told_hours() -> None:
    card = running_in(RINGS, rings="thin_steel", bore="plated", by_hours=True)

    assert [card.oil_at, card.unit] == [2, "h"]


def test_what_was_undone_is_looked_at_again() -> None:
    card = running_in(RINGS, rings="thin_steel", bore="plated", by_hours=False)

    assert [words.split(",")[0] for words in card.recheck] == [
        "head bolts or nuts",
        "valve clearances",
        "leaks",
    ]


def test_without_new_rings_nothing_is_bedded_in() -> None:
    clutch = running_in(("clutch_friction",), rings="thin_steel", bore="plated", by_hours=False)
    shells = running_in(("rod_bearing",), rings="not_renewed", bore="plated", by_hours=False)

    assert (clutch.kind, clutch.rev_limit_pct, clutch.recheck[0]) == ("", 100, "clutch free play")
    assert [shells.kind, shells.rev_limit_pct, shells.oil_at] == ["", 70, 100]


def test_common_practice_says_that_it_has_no_source() -> None:
    assert running_in(RINGS, rings="thin_steel", bore="plated", by_hours=False).source == (
        "common practice, no source"
    )


def test_the_manual_stands_before_common_practice_and_is_named() -> None:
    rule = RunningInFigures(
        unit="km",
        rev_limit_pct=50,
        revs_until=Decimal(800),
        oil_at=Decimal(1000),
        manual="Workshop manual, 4th edition",
        page="2-7",
        words="Keep under half throttle.\n\n",
    )
    card = running_in(RINGS, rings="thin_steel", bore="plated", by_hours=False, rule=rule)

    assert [card.oil_at, card.revs_until, card.unit, card.recheck_at] == [1000, 800, "km", None]
    assert card.steps[0] == "Keep under half throttle."
    assert card.source.startswith("figures from Workshop manual, 4th edition, page 2-7;")


def test_the_workshops_own_figures_leave_out_what_they_do_not_say() -> None:
    rule = RunningInFigures(unit="mi", rev_limit_pct=60, revs_until=Decimal(80), oil_at=Decimal(80))
    card = running_in(RINGS, rings="thin_steel", bore="plated", by_hours=False, rule=rule)

    assert card.recheck_at == 400
    assert card.source.startswith("figures as this workshop does it")
