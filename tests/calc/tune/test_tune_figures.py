"""The tune on the sheet: figures, power as a band or as measured, and how wide the model is."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.faults import request_faults
from quotes.calc.ask.read_request import read_request
from quotes.calc.ask.request import MeasuredPower, Request
from quotes.calc.compare import compare
from quotes.calc.scope.case import Case, make_case
from quotes.calc.sheet.tune_figures import power_left, power_of
from quotes.calc.sheet.tune_words import power_at_its_peak, power_band
from quotes.calc.sheet.words import NO_BREAK
from tests.calc.asked import ON, asked, ran
from tests.calc.small import SHOP
from tests.cast import shipped

READ = MeasuredPower(
    figure=Decimal("84.5"),
    unit="kW",
    rpm=Decimal(13800),
    on=date(2026, 11, 20),
    dyno="inertia dyno, back wheel",
    correction="SAE J1349",
)


def case(tier: str, measured: MeasuredPower | None = None, **engine: Any) -> Case:
    request = asked("four600", ran(1500), engine={"measured_power": measured, **engine})
    return make_case(request, shipped("four600"), SHOP, tier)


def with_tier(catalogue: EngineCatalogue, code: str, **changes: Any) -> EngineCatalogue:
    return replace(catalogue, tiers={**catalogue.tiers, code: replace(catalogue.tiers[code], **changes)})


def plain(words: str) -> str:
    return words.replace(NO_BREAK, " ")


def test_power_is_a_band_from_the_tier_s_gain_on_the_crank() -> None:
    power = power_of(case("full"))
    assert power.kind == "estimated"
    assert (power.hp.low, power.hp.typical, power.hp.high) == pytest.approx((129.8, 136.9, 144.0), abs=0.05)
    assert power.kw.typical == pytest.approx(102.1, abs=0.05)
    assert power.compression_at_most_pct == pytest.approx(2.9, abs=0.05)
    assert plain(power_at_its_peak(power)) == "about 137 hp (102 kW)"
    assert plain(power_band(power)) == "130 to 144 hp"
    assert power.sentence.startswith("An estimate at the crank")


def test_a_dyno_figure_stands_in_place_of_the_estimate_and_says_so() -> None:
    power = power_of(case("refresh", READ))
    assert power.kind == "measured"
    assert power.kw.low == power.kw.typical == power.kw.high == pytest.approx(84.5)
    assert plain(power_at_its_peak(power)) == "113 hp (84 kW)"
    assert power_band(power) == ""
    assert plain(power.sentence) == (
        "Measured, not estimated: 84.5 kW at 13,800 a minute, 20 November 2026 on inertia dyno, back wheel, "
        "corrected by SAE J1349."
    )


def test_a_tier_that_changes_the_tune_begins_from_what_was_measured() -> None:
    power = power_of(case("mild", READ))
    assert power.kind == "from measured"
    assert power.kw.typical == pytest.approx(84.5 * 1.07)
    assert "on what was measured: 84.5" in power.sentence


def test_from_a_tune_that_was_measured_only_the_rest_is_gained() -> None:
    power = power_of(case("full", READ, fitted="mild"))
    assert power.kw.typical == pytest.approx(84.5 * 1.16 / 1.07)


def test_a_figure_of_another_tune_is_no_measure_of_this_one() -> None:
    other = READ.model_copy(update={"tier": "full"})
    assert power_of(case("mild", other)).kind == "estimated"
    assert power_left(case("refresh", other)) is None


def test_no_word_of_a_correction_is_said_where_none_is_written_down() -> None:
    bare = MeasuredPower(figure=Decimal(110), unit="hp", on=ON)
    sentence = plain(power_of(case("refresh", bare)).sentence)
    assert sentence.endswith("110 hp, 1 February 2027, no dyno named, no correction written down.")


def test_the_sheet_shows_figures_of_every_option_and_the_measured_power_of_leaving_it() -> None:
    request = asked("four600", ran(1500), engine={"measured_power": READ}, tiers=("refresh", "full"))
    found = compare(request, shipped("four600"), SHOP)
    assert found.leave_it.power is not None
    assert found.leave_it.power.kind == "measured"
    refresh, full = (option.tune_figures for option in found.options)
    assert refresh is not None
    assert full is not None
    assert refresh.power.kind == "measured"
    assert refresh.power_rpm == 13800
    assert full.power.kind == "from measured"
    assert full.piston_speed_m_per_s == pytest.approx(24.3, abs=0.05)
    assert full.acceleration_g == pytest.approx(8556, abs=1)
    assert full.width is not None
    assert full.width.low < full.width.value < full.width.high
    assert refresh.width is not None
    assert refresh.width.low == refresh.width.high


def test_more_tune_costs_more() -> None:
    """Common practice, no source; that it lasts less is shown in every duty in test_beside_trade."""
    request = asked("twin650", ran(1500), amount=1050, duty="track_day", tiers=("refresh", "mild", "full"))
    options = compare(request, shipped("twin650"), SHOP).options
    assert sorted(options, key=lambda option: option.gross.typical) == list(options)


def test_a_load_past_what_is_known_gets_a_sentence_and_no_width() -> None:
    wild = with_tier(shipped("four600"), "full", rev_limit_delta_pct=20.0)
    request = asked("four600", ran(1500), tiers=("full",))
    figures = compare(request, wild, SHOP).options[0].tune_figures
    assert figures is not None
    assert figures.width is None
    assert [load.factor is None for load in figures.loads] == [True, False]
    assert "1.44 of the standard" in figures.notes[0]


def test_an_engine_whose_geometry_can_not_be_is_still_quoted() -> None:
    catalogue = shipped("four600")
    wrong = replace(catalogue, engine_type=replace(catalogue.engine_type, rod_length_mm=20.0))
    request = asked("four600", ran(1500), tiers=("refresh",))
    assert compare(request, wrong, SHOP).options[0].tune_figures is None


def test_a_request_without_a_dyno_figure_keeps_its_fingerprint() -> None:
    assert "measured_power" not in asked("four600").model_dump_json()


def measured_in(**changes: Any) -> Request:
    told = {"figure": "84.5", "unit": "kW", "on": "2026-11-20", **changes}
    engine = {"type": "four600", "history": [], "measured_power": told}
    return read_request({"engine": engine, "planned": {"duty": "sprint"}}, ON)


@pytest.mark.parametrize(
    ("changes", "field", "allowed"),
    [
        ({"figure": "900"}, "figure", "from 26 to 176 kW for the 600 inline four"),
        ({"figure": "20"}, "figure", "from 26 to 176 kW for the 600 inline four"),
        ({"rpm": "28000"}, "rpm", "at most 20,800 a minute"),
        ({"on": "2027-02-02"}, "on", "a day not after 2027-02-01"),
        ({"tier": "wild"}, "tier", "one of full, mild, refresh"),
    ],
)
def test_a_figure_that_can_not_be_is_refused_at_its_field(
    changes: dict[str, str], field: str, allowed: str
) -> None:
    (fault,) = request_faults(measured_in(**changes), shipped("four600"), SHOP)
    assert (fault.field, fault.allowed) == (f"engine.measured_power.{field}", allowed)


@pytest.mark.parametrize("changes", [{"figure": "0"}, {"figure": "NaN"}, {"unit": "watts"}, {"rpm": "-1"}])
def test_what_is_no_figure_at_all_is_refused_as_it_is_read(changes: dict[str, str]) -> None:
    with pytest.raises(BadRequest, match=r"engine\.measured_power"):
        measured_in(**changes)


def test_a_figure_in_any_unit_is_read() -> None:
    assert not request_faults(measured_in(figure="115", unit="PS"), shipped("four600"), SHOP)
