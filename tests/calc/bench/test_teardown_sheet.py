"""The sheet by engine type: order, places, limits and verdicts."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.bench.teardown.places import all_places
from quotes.calc.bench.teardown.sheet import ManualFigures, SheetRow, scales, strip_order, teardown_sheet
from quotes.calc.bench.teardown.units_read import value_of
from quotes.calc.bench.teardown.verdicts import Bounds, far_off, verdict, verdict_in_words
from tests.cast import shipped, shipped_rows

TYPES = ("single450", "twin650", "four600", "four1000")


def rows(code: str, **options: ManualFigures) -> dict[str, SheetRow]:
    groups = teardown_sheet(shipped(code), shipped_rows().limits, options)
    return {row.code: row for group in groups for row in group.rows}


@pytest.mark.parametrize("code", TYPES)
def test_no_part_stands_before_what_must_come_off_first(code: str) -> None:
    order = strip_order(shipped(code))

    assert order["cam_intake"] < order["cylinder_head"] < order["valve_intake"]
    assert order["cylinder_head"] < order["piston"]
    assert order["clutch_basket"] < order["crankcase"] < order["crankshaft"]
    assert order["crankcase"] < order["shift_fork"]


@pytest.mark.parametrize("code", TYPES)
def test_what_is_read_before_it_is_opened_stands_first(code: str) -> None:
    groups = teardown_sheet(shipped(code), shipped_rows().limits, {})

    assert groups[0].code == "as_received"
    assert {row.when for row in groups[0].rows} == {"as_received"}
    assert all(row.when == "stripped" for group in groups[1:] for row in group.rows)


@pytest.mark.parametrize(
    ("code", "count"), [("single450", 1), ("twin650", 2), ("four600", 4), ("four1000", 4)]
)
def test_cylinders_and_valves_are_counted_as_the_engine_has_them(code: str, count: int) -> None:
    sheet = rows(code)

    assert len(sheet["piston_clearance"].places) == count
    assert len(sheet["stem_in"].places) == len(sheet["stem_ex"].places) == 2 * count
    assert len(sheet["spring_load"].places) == 4 * count
    assert sheet["stem_ex"].places[:2] == ("cylinder 1, exhaust left", "cylinder 1, exhaust right")
    assert all(len(set(row.places)) == len(row.places) for row in sheet.values())


def test_a_pressed_crank_has_no_shells_and_no_rod_bolts() -> None:
    assert not {"rod_clearance", "bolt_growth"} & set(rows("single450"))
    assert rows("four600")["main_clearance"].places[-1] == "main journal 5"
    assert rows("four600")["bolt_growth"].places[-1] == "cylinder 4, rod bolt 2"


def test_a_limit_that_is_a_share_of_the_bore_is_worked_out_for_the_engine() -> None:
    row = rows("four600")["skirt_loss"]

    assert row.unit == "mm"
    assert row.bounds is not None
    assert (row.bounds.limit, row.bounds.watch) == (Decimal("0.067"), Decimal("0.047"))
    assert row.basis == "x diameter of 67 mm"


def test_a_share_of_a_journal_whose_size_nobody_gave_is_left_out() -> None:
    assert "rod_clearance_rule" not in rows("four600")


def test_the_manuals_figure_stands_before_the_default_and_says_whose_it_is() -> None:
    manual = ManualFigures(limit=Decimal("0.12"), source="Workshop manual 600, page 4-12")
    bounds = rows("four600", stem_ex=manual)["stem_ex"].bounds

    assert bounds == Bounds(limit=Decimal("0.12"), bad_when="above", source="Workshop manual 600, page 4-12")
    default = rows("four600")["stem_ex"].bounds
    assert default is not None
    assert default.source == "default, not from your manual"


def test_one_leak_down_scale_stands_on_the_sheet_and_never_both() -> None:
    limits = shipped_rows().limits
    assert [code for code, _ in scales(limits)] == ["leakdown_general", "leakdown_race"]

    for chosen in ("leakdown_general", "leakdown_race"):
        groups = teardown_sheet(shipped("four600"), limits, {}, leak_down=chosen)
        codes = {row.code for group in groups for row in group.rows}
        assert codes & {"leakdown_general", "leakdown_race"} == {chosen}


ABOVE = Bounds(Decimal("0.10"), "above", watch=Decimal("0.08"))
BELOW = Bounds(Decimal("0.948"), "below", watch=Decimal("0.97"))


@pytest.mark.parametrize(
    ("bounds", "value", "said"),
    [
        (ABOVE, "0.0799", "within"),
        (ABOVE, "0.08", "watch"),
        (ABOVE, "0.10", "watch"),
        (ABOVE, "0.100001", "past"),
        (BELOW, "0.98", "within"),
        (BELOW, "0.97", "watch"),
        (BELOW, "0.948", "watch"),
        (BELOW, "0.9479", "past"),
        (None, "5", "no_limit"),
    ],
)
def test_at_its_limit_a_part_is_watched_and_beyond_it_is_past(
    bounds: Bounds | None, value: str, said: str
) -> None:
    assert verdict(Decimal(value), bounds) == said


def test_the_same_gap_in_any_unit_has_the_same_verdict() -> None:
    """0.1016 mm is 4 thou, 0.004 in and 101.6 µm, by 1 in = 25.4 mm exactly."""
    read = [("0.1016", "mm"), ("4", "thou"), ("0.004", "in"), ("101,6", "µm")]

    values = {value_of(entered, unit, "mm") for entered, unit in read}

    assert values == {Decimal("0.1016")}
    assert verdict(values.pop(), ABOVE) == "past"


@pytest.mark.parametrize("code", TYPES)
def test_no_figure_of_a_manual_is_doubted_and_every_limit_in_the_wrong_unit_is(code: str) -> None:
    for row in rows(code).values():
        if (bounds := row.bounds) is None:
            continue
        ends = (bounds.standard_low, bounds.standard_high, bounds.watch, bounds.limit)
        assert not any(far_off(end, bounds) for end in ends if end is not None), row.code
        if row.unit == "mm":
            assert far_off(bounds.limit * Decimal("25.4"), bounds), row.code
            assert far_off(-bounds.limit, bounds), row.code


def test_a_doubt_stands_beside_the_verdict() -> None:
    assert verdict_in_words(Decimal("1.6"), ABOVE) == "past its limit; far off: is the unit right?"
    assert verdict_in_words(Decimal("0.05"), ABOVE) == "within limits"
    assert verdict_in_words(Decimal("0.002"), ABOVE) == "within limits; far off: is the unit right?"
    plate = Bounds(Decimal("0.93"), "below", Decimal("0.97"), Decimal("1.03"))
    assert verdict_in_words(Decimal("2.4"), plate) == "within limits; far off: is the unit right?"
    assert verdict_in_words(Decimal("5"), None) == "no limit known"


@pytest.mark.parametrize("code", TYPES)
def test_every_place_has_a_name_of_its_own(code: str) -> None:
    places = all_places(shipped(code).engine_type)

    assert len(set(places)) == len(places)
    assert all(places)
