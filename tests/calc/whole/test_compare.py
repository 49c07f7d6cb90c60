"""The main job on the catalogue that ships."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.request import Observed, Refusal, Request
from quotes.calc.compare import compare
from quotes.calc.scope.case import make_case
from quotes.calc.scope.decide import decide
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.sheet.values import Comparison
from quotes.calc.shop import ClassRule
from tests.calc.asked import ON, asked, ran, tired_four, tired_single
from tests.calc.small import SHOP, shop
from tests.calc.trade_list import job_closure
from tests.cast import shipped


def worked(request: Request, **rules: Any) -> Comparison:
    return compare(request, shipped(request.engine.type), shop(**rules) if rules else SHOP)


EVERY_DUTY = [
    *(
        asked(engine, ran(3000), amount=None, unit=None, duty=duty)
        for engine in ("twin650", "four600", "four1000")
        for duty in ("endurance", "sprint", "track_day", "hill_climb", "drag")
    ),
    asked("single450", ran(38, "h", "motocross"), amount=None, unit=None, duty="motocross"),
    asked("single450", ran(38, "h", "motocross"), amount=None, unit=None, duty="hill_climb"),
]


@pytest.fixture(params=EVERY_DUTY, ids=lambda r: f"{r.engine.type}-{r.planned.duty}", scope="module")
def every_duty(request: pytest.FixtureRequest) -> Comparison:
    return worked(request.param)


def test_every_engine_and_duty_gets_three_options_that_hang_together(every_duty: Comparison) -> None:
    found = every_duty
    assert [option.tier for option in found.options] == ["refresh", "mild", "full"]
    for option in found.options:
        assert option.net.low <= option.net.typical <= option.net.high
        assert 0 < option.chance.low <= option.chance.value <= option.chance.high < 1
        assert option.chance.value > found.leave_it.chance.value - 0.35
        assert set(option.operations) == {step.code for step in option.work}
        assert option.hours == sum(step.hours for step in option.work)
        assert not set(option.renewed) & set(option.left)
        if option.chance.events > 1:
            assert option.chance.value < min(option.chance.first_event, option.chance.last_event)
        assert sum(risk.used_pct_at_end < 100 for risk in option.offered.values()) <= 1, "the next one due"
        closed = job_closure(shipped(found.engine_type), option.operations, delivered="loose")
        assert closed == set(option.operations)
        assert option.ready.typical <= option.ready.p80 <= option.ready.p90


def test_the_same_request_gives_the_same_bytes() -> None:
    assert worked(tired_four()).model_dump_json() == worked(tired_four()).model_dump_json()


def test_a_must_line_is_always_in_with_its_reason() -> None:
    refresh = worked(tired_four()).option("refresh")
    springs = refresh.renewed["valve_spring"]
    assert springs.state == "must"
    assert springs.sentence.endswith("at the end of this service.")
    assert refresh.renewed["valve_seal"].code == "single_use"
    assert refresh.renewed["rod_bolt"].rider_safety


def test_rod_bolts_are_renewed_whenever_they_have_been_undone() -> None:
    """Common practice, no source."""
    for request in (tired_four(), tired_four(amount=1800, duty="sprint")):
        for option in worked(request).options:
            assert ("rods_off" in option.operations) <= ("rod_bolt" in option.renewed)


def test_more_tune_costs_more_and_lasts_less_in_every_duty(every_duty: Comparison) -> None:
    """Common practice, no source. The mild one may be good for as long where it has more renewed."""
    refresh, mild, full = every_duty.options
    assert refresh.gross.typical < mild.gross.typical < full.gross.typical
    assert refresh.chance.value > mild.chance.value > full.chance.value
    assert full.good_for.amount < min(refresh.good_for.amount, mild.good_for.amount)


def test_an_engine_that_arrives_full_power_is_judged_on_that_tune() -> None:
    found = worked(asked("four600", ran(1200, tier="full"), amount=1000, duty="sprint"))
    refresh, full = found.option("refresh"), found.option("full")
    assert found.leave_it.tune == refresh.tune == full.tune == "full"
    assert "cam_intake" not in full.renewed
    assert full.power_gain_pct.typical == 0
    assert any("came in as full power" in note for note in refresh.notes)


def test_a_target_out_of_reach_is_said_and_the_best_is_given() -> None:
    full = worked(tired_four(target="0.97")).option("full")
    assert not full.chance.target_met
    assert any("can't be reached" in note for note in full.notes)


@pytest.mark.parametrize("tier", ["refresh", "full"])
def test_what_is_given_in_its_place_comes_within_half_a_per_cent_of_the_best(tier: str) -> None:
    scope = decide(grounds_of(make_case(tired_four(target="0.97"), shipped("four600"), SHOP, tier)))
    assert not scope.target_met
    assert 0.995 * scope.best - 1e-9 <= scope.reached <= scope.best


def test_a_budget_is_kept_and_buys_the_safest() -> None:
    tight = worked(tired_four(budget="6000")).option("refresh")
    wide = worked(tired_four(budget="8000")).option("refresh")
    assert tight.gross.typical <= 6000
    assert wide.gross.typical <= 8000
    assert tight.chance.value < wide.chance.value


def test_what_buys_little_by_itself_says_what_it_is_taken_for() -> None:
    aimed, spent = worked(tired_four()).option("refresh"), worked(tired_four(budget="6000")).option("refresh")
    for option, end in ((aimed, "the cheapest way towards the aim."), (spent, "the most of the budget.")):
        small = [each.sentence for each in option.renewed.values() if "under 1 in 100" in each.sentence]
        assert small, option.tier
        assert all(sentence.endswith(end) for sentence in small)


def test_a_budget_under_the_must_list_leaves_out_none_of_it_and_says_so() -> None:
    poor = worked(tired_four(budget="500")).option("refresh")
    assert "valve_spring" in poor.renewed
    short = poor.gross.typical - 500
    assert poor.attention[0] == (
        f"The budget does not pay for the least that may be done: that costs {poor.gross.typical:,.2f}, "
        f"{short:,.2f} more than 500.00. Nothing was left out of it."
    )


def test_fresh_engines_gain_nothing_that_can_be_measured() -> None:
    refresh = worked(asked(amount=500)).option("refresh")
    assert any("buys nothing in chance that can be measured" in note for note in refresh.notes)


def test_the_price_is_a_band_before_the_strip_down_and_firm_after() -> None:
    assert (
        worked(tired_four()).option("refresh").gross.low < worked(tired_four()).option("refresh").gross.high
    )
    stripped = worked(tired_four(stripped=True)).option("refresh").gross
    assert stripped.low == stripped.typical == stripped.high


@pytest.mark.parametrize("must", ["rod_bolt", "valve_spring"])
def test_a_must_can_t_be_left_without_a_signed_refusal(must: str) -> None:
    with pytest.raises(BadRequest) as caught:
        worked(tired_four(leave=(must,)))
    fault = caught.value.faults[0]
    assert (fault.field, fault.value) == ("leave", must)
    assert "record a signed refusal" in fault.allowed


REFUSED = {
    "leave": ("rod_bolt",),
    "refusals": (Refusal(component="rod_bolt", signed_by="Ilse Brandt", on=ON, reason="sold after"),),
}


def test_a_signed_refusal_leaves_the_part_in_and_stands_on_the_sheet() -> None:
    refresh = worked(tired_four(**REFUSED)).option("refresh")
    assert refresh.left["rod_bolt"].refused_by == "Ilse Brandt"
    assert any("Left against our advice, signed by Ilse Brandt" in said for said in refresh.attention)


def test_the_owner_may_have_said_we_do_not_build_it_so() -> None:
    with pytest.raises(BadRequest) as caught:
        worked(tired_four(**REFUSED), refuses_unsafe=True)
    assert "we do not build it so" in caught.value.faults[0].allowed


def test_no_plan_step_or_budget_leaves_a_rider_safety_must() -> None:
    for more in ({}, {"budget": "3000"}, {"target": "0.6"}):
        refresh = worked(tired_four(**more)).option("refresh")
        assert {"rod_bolt", "rod_bearing", "valve_spring"} <= set(refresh.renewed)
        assert {"rod_bolt", "rod_bearing", "valve_spring"} <= set(refresh.ladder[0].adds)


def test_a_class_that_does_not_allow_the_cams_is_said() -> None:
    rule = ClassRule("stock", "Stock 600", frozenset())
    mild = worked(tired_four(class_code="stock"), classes={"stock": rule}).option("mild")
    assert "cams" in mild.breaks_class
    assert any("the class Stock 600 does not allow" in said for said in mild.attention)


def test_a_motocross_season_says_when_it_must_be_opened() -> None:
    refresh = worked(tired_single(amount=70)).option("refresh")
    assert refresh.good_for.amount == pytest.approx(25, abs=1)
    assert [opening.amount for opening in refresh.openings] == [17.5, 35, 52.5]
    assert refresh.chance.to_first_opening is not None
    assert refresh.chance.to_first_opening > 0.9 > refresh.chance.value


def test_a_first_meeting_before_the_promise_is_said() -> None:
    early = worked(tired_four(planned={"first_meeting": date(2027, 2, 20)})).option("refresh")
    assert any("not before the first meeting on 20 February 2027" in said for said in early.attention)


def test_a_loss_is_weighed_with_the_chance() -> None:
    refresh = worked(tired_four(loss="1000")).option("refresh")
    stops = Decimal(str(round(1 - refresh.chance.value, 6)))
    assert refresh.expected_loss == pytest.approx(refresh.gross.typical + 1000 * stops, abs=Decimal("0.01"))


def test_in_the_chassis_costs_the_hours_of_taking_it_out() -> None:
    loose = worked(tired_four()).option("refresh")
    framed = worked(tired_four(engine={"delivered": "in_chassis"})).option("refresh")
    assert {"engine_out", "engine_in"} <= set(framed.operations)
    assert framed.hours - loose.hours == Decimal("8.0")


def test_own_lines_discount_and_a_price_by_hand_are_in_the_sum() -> None:
    edits = {
        "refresh": {
            "own_lines": [{"description": "Courier", "quantity": "1", "unit_price": "40"}],
            "lines": {"part:cam_chain": {"unit_price": "50", "note": "agreed"}},
            "discount_pct": "10",
            "include": ["cam_chain"],
        }
    }
    plain = worked(tired_four(edits={"refresh": {"include": ["cam_chain"]}})).option("refresh")
    refresh = worked(tired_four(edits=edits)).option("refresh")
    lines = {line.key: line for line in refresh.lines}
    assert lines["part:cam_chain"].edited == "agreed"
    before = plain.net.typical + 40 - (68 - 50)
    assert refresh.net.typical == pytest.approx(before * Decimal("0.9"), abs=Decimal("0.02"))


def test_what_is_priced_and_not_included_stays_out_of_the_sum() -> None:
    request = tired_four(findings=(Observed(id="piston_scuffed"),))
    refresh = worked(request).option("refresh")
    assert {"machine_work:plateau_hone", "machine_work:replate"} <= {line.key for line in refresh.if_needed}
    assert not {"plateau_hone", "replate"} & {line.code for line in refresh.lines}


def test_where_the_chance_goes_adds_up_to_all_that_stop() -> None:
    refresh = worked(tired_four()).option("refresh")
    stopped = sum(share.stops_in_100 for share in refresh.where_the_chance_goes)
    assert stopped == pytest.approx(100 * (1 - refresh.chance.value), abs=1e-6)


def test_our_own_hands_stop_what_their_faults_come_to() -> None:
    """With a hazard as small as this, engines stopped are the faults' chance to a tenth of them."""
    refresh = worked(tired_four()).option("refresh")
    own = next(s for s in refresh.where_the_chance_goes if s.name.startswith("Our own hands"))
    faults = int(own.state.split()[0])
    assert own.stops_in_100 == pytest.approx(100 * faults * SHOP.assembly_fault_chance, rel=0.1)
