"""The two seasons that have to be opened, as a builder reads them, and what holds for every season."""

from __future__ import annotations

import math
from datetime import date
from decimal import Decimal
from functools import lru_cache

import pytest

from quotes.calc.ask.request import Refusal, Request
from quotes.calc.compare import compare
from quotes.calc.life.horizon import OVER_A_LIFE, opens_engine_by_age
from quotes.calc.scope.case import make_case
from quotes.calc.scope.decide import CLOSE_ENOUGH, decide
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.season import articles_of, season_of
from quotes.calc.sheet.oversold import oversold, warned
from quotes.calc.sheet.season_values import SeasonPlan
from quotes.calc.sheet.values import Option
from tests.calc.asked import ON, asked, ran, tired_four
from tests.calc.small import SHOP
from tests.cast import shipped

MOTOCROSS = asked("single450", ran(38, "h", "motocross"), amount=None, unit=None, duty="motocross")
SPRINT = asked("four600", ran(4000), amount=None, unit=None, duty="sprint")


def option(request: Request, tier: str) -> Option:
    return _worked(request.model_copy(update={"tiers": (tier,)}).model_dump_json())


@lru_cache
def _worked(request: str) -> Option:
    asked_alone = Request.model_validate_json(request)
    return compare(asked_alone, shipped(asked_alone.engine.type), SHOP).options[0]


def season(request: Request, tier: str) -> SeasonPlan:
    plan = option(request, tier).season
    assert plan is not None
    return plan


EVERY = [(MOTOCROSS, "refresh"), (MOTOCROSS, "full"), (SPRINT, "full")]
OPENED = pytest.mark.parametrize(("request_", "tier"), EVERY, ids=["motocross", "full motocross", "sprint"])


def refused(*components: str) -> dict[str, object]:
    return {
        "leave": components,
        "refusals": tuple(Refusal(component=code, signed_by="Ilse Brandt", on=ON) for code in components),
    }


def test_a_motocross_season_is_a_top_end_twice_and_then_the_bottom_end_with_it() -> None:
    """Common practice, no source: a piston every 15 to 20 hours, a rod at about 60."""
    services = season(MOTOCROSS, "refresh").services
    assert [(each.begins.amount, each.length.amount) for each in services] == [
        (0, 17.5),
        (17.5, 17.5),
        (35, 17.5),
        (52.5, 17.5),
    ]
    assert [each.done for each in services[:2]] == ["the build", "a top end and the clutch"]
    for each in services[1:]:
        assert {"piston", "rings", "piston_pin", "circlip", "clutch_friction"} <= each.renewed.keys()
        assert not {"crankcase", "crankshaft", "cylinder_head"} & each.renewed.keys()
    assert ["con_rod" in each.renewed for each in services] == [True, False, False, True]
    assert ["valve_spring" in each.renewed for each in services] == [True, False, True, True]


def test_a_top_end_costs_a_fraction_of_the_build() -> None:
    build, top_end, *_ = season(MOTOCROSS, "refresh").services
    assert build.gross.typical / 4 < top_end.gross.typical < build.gross.typical / 2
    assert top_end.hours < build.hours / 2


def test_a_full_power_sprint_season_is_opened_for_its_valve_springs() -> None:
    first, second, third = season(SPRINT, "full").services
    assert [first.length.amount, second.length.amount, third.length.amount] == pytest.approx([600] * 3)
    for opened in (second, third):
        assert {"valve_spring", "head_gasket"} <= opened.renewed.keys()
        assert not {"rod_bearing", "con_rod", "piston", "crankcase"} & opened.renewed.keys()
    assert third.done == "the valve train and the clutch"


def test_a_season_that_a_fresh_engine_holds_is_not_opened() -> None:
    refresh = option(SPRINT, "refresh")
    assert refresh.season is None
    assert refresh.openings == ()
    assert refresh.planned_gross == refresh.gross


def test_the_option_speaks_of_the_season_with_its_openings() -> None:
    full = option(SPRINT.model_copy(update={"loss": Decimal(1000)}), "full")
    plan = full.season
    assert plan is not None
    assert (full.chance.value, full.chance.low, full.chance.high) == (
        plan.chance.value,
        plan.chance.low,
        plan.chance.high,
    )
    assert full.chance.to_first_opening == plan.services[0].chance.value
    assert full.planned_gross == plan.gross
    assert full.gross == plan.services[0].gross
    assert full.cost_per_season == plan.cost_per_season
    stops = 1 - Decimal(str(round(plan.chance.value, 6)))
    assert full.expected_loss == pytest.approx(plan.gross.typical + 1000 * stops, abs=Decimal("0.01"))
    assert 100 * (1 - full.chance.value) == pytest.approx(
        sum(share.stops_in_100 for share in full.where_the_chance_goes)
    )
    assert [opening.amount for opening in full.openings] == [each.begins.amount for each in plan.openings]


def test_opening_it_is_better_than_running_it_through() -> None:
    plan = season(MOTOCROSS, "refresh")
    assert plan.run_through.value < plan.chance.low < plan.chance.value


def test_the_sentence_says_when_and_for_what() -> None:
    assert season(SPRINT, "full").sentence == (
        "Opened twice in 1,800 miles: at 600 miles the valve train; "
        "at 1,200 miles the valve train and the clutch."
    )


def test_many_openings_are_counted() -> None:
    said = season(MOTOCROSS, "full").sentence
    assert said.startswith("Opened 7 times in 70 hours, about every 8.8 hours; ")
    assert said.endswith(" times with the bottom end.")


def test_use_is_spread_over_the_year_from_the_first_meeting() -> None:
    request = asked(
        "four600",
        ran(4000),
        amount=None,
        unit=None,
        duty="sprint",
        planned={"first_meeting": date(2027, 9, 1)},
    )
    plan = season(request, "full")
    assert plan.begins_on == date(2027, 9, 1)
    assert [each.opened_on for each in plan.services] == [ON, date(2028, 1, 1), date(2028, 5, 2)]
    for each in plan.services:
        assert each.opened_on < each.ready.typical <= each.ready.p80 <= each.ready.p90


def test_where_an_aim_is_out_of_reach_no_opening_builds_the_engine_anew() -> None:
    """As in the first job what is given is the cheapest near the best, not the best at any price."""
    aimed = SPRINT.model_copy(update={"target": Decimal("0.97")})
    full = option(aimed, "full")
    assert full.season is not None
    assert not full.chance.target_met
    build, *openings = full.season.services
    assert all(each.gross.typical < build.gross.typical * 2 / 3 for each in openings)


def test_parts_of_a_planned_opening_lie_ready_so_only_the_bench_takes_time() -> None:
    """Seven hours a day: a top end of nine hours is back within two, whatever the parts take to come."""
    first, top_end, *_ = season(MOTOCROSS, "refresh").services
    assert (top_end.ready.p90 - top_end.opened_on).days <= 5
    assert (first.ready.p90 - first.opened_on).days > 20


def test_before_the_engine_is_ready_no_use_begins() -> None:
    full = option(SPRINT, "full")
    assert full.season is not None
    assert full.season.begins_on == full.ready.p80


def test_what_is_refused_makes_the_first_stretch_short_and_comes_at_the_opening() -> None:
    must = ("rod_bolt", "rod_bearing", "valve_spring")
    first, second = season(tired_four(**refused(*must)), "refresh").services
    assert first.length.amount < 1000 < second.length.amount
    assert not set(must) & first.renewed.keys()
    assert set(must) <= second.renewed.keys()


def test_nothing_is_opened_for_the_last_miles() -> None:
    """Good for 1,792 of 2,000 miles: no opening, but a word that the ceiling is passed."""
    left = option(tired_four(**refused("rod_bolt")), "refresh")
    assert left.season is None
    assert left.good_for.amount < 2000
    assert not left.wheel_lock.met
    assert any("over this service, above our ceiling" in said for said in left.attention)


def test_a_budget_is_for_the_first_job_and_the_openings_come_on_top() -> None:
    refresh = option(MOTOCROSS.model_copy(update={"budget": Decimal(3000)}), "refresh")
    assert refresh.gross.typical <= 3000 < refresh.planned_gross.typical


def test_an_aim_for_the_whole_is_held_against_the_whole() -> None:
    easy, hard = (
        option(MOTOCROSS.model_copy(update={"target": Decimal(aim)}), "refresh") for aim in ("0.6", "0.9")
    )
    assert easy.chance.target == 0.6
    assert easy.chance.target_met
    assert hard.chance.value < 0.9
    assert not hard.chance.target_met
    assert any("not even with everything renewed at every opening" in said for said in hard.notes)


def test_an_engine_that_would_be_opened_all_the_time_gets_no_plan_and_a_word() -> None:
    full = option(asked("four600", ran(4000), amount=900, unit="runs", duty="drag"), "full")
    assert full.season is None
    assert any("opened more than 11 times. The chance is for running it through" in n for n in full.notes)


@OPENED
def test_the_services_come_to_the_whole(request_: Request, tier: str) -> None:
    plan = season(request_, tier)
    whole = option(request_, tier)
    ends = [each.begins.amount + each.length.amount for each in plan.services]
    assert [each.begins.amount for each in plan.services] == pytest.approx([0.0, *ends[:-1]])
    assert ends[-1] == pytest.approx(70 if request_ is MOTOCROSS else 1800)
    assert math.prod(each.chance.value for each in plan.services) == pytest.approx(whole.chance.value)
    for which in ("net", "tax", "gross"):
        parts = [getattr(each, which).typical for each in plan.services]
        assert getattr(plan, which).typical == sum(parts)


@OPENED
def test_no_service_is_longer_than_its_engine_is_good_for(request_: Request, tier: str) -> None:
    for each in season(request_, tier).services:
        assert each.length.amount <= each.good_for.amount * OVER_A_LIFE
        assert each.wheel_lock <= SHOP.rider_safety_ceiling + 1e-6
        assert each.chance.low < each.chance.value < each.chance.high


@OPENED
def test_every_opening_renews_something_inside(request_: Request, tier: str) -> None:
    components = shipped(request_.engine.type).components
    for each in season(request_, tier).openings:
        assert any(opens_engine_by_age(components[code]) for code in each.renewed)


def test_the_same_request_gives_the_same_season() -> None:
    assert compare(SPRINT, shipped("four600"), SHOP).option("full").season == season(SPRINT, "full")


def test_an_opening_leaves_no_rider_safety_must() -> None:
    """What would pass its life before the next opening, and can lock the wheel, is renewed at this one."""
    components = shipped("single450").components
    for number, each in enumerate(season(MOTOCROSS, "refresh").openings, start=1):
        for code in ("piston", "piston_pin", "valve_spring", "cam_chain", "con_rod"):
            life = components[code].lives["hours_mx"].typical
            renewed = [
                s.begins.amount
                for s in season(MOTOCROSS, "refresh").services[: number + 1]
                if code in s.renewed
            ]
            assert each.begins.amount + each.length.amount - renewed[-1] <= life


def test_an_opening_at_which_nothing_is_due_renews_what_is_next() -> None:
    """667 miles into an endurance season the springs have as many again: they are in reach, and done."""
    first, *opened = season(tired_four(), "full").services
    assert first.length.amount * 2 < first.good_for.amount * 1.2
    assert all("valve_spring" in each.renewed for each in opened)


def test_a_higher_aim_renews_more_at_the_openings() -> None:
    aimed = option(MOTOCROSS.model_copy(update={"target": Decimal("0.8")}), "refresh")
    assert aimed.chance.value >= 0.8 - CLOSE_ENOUGH
    assert aimed.planned_gross.typical > option(MOTOCROSS, "refresh").planned_gross.typical


def test_each_new_piston_is_another_article_and_a_kept_gear_is_one() -> None:
    case = make_case(MOTOCROSS, shipped("single450"), SHOP, "refresh")
    steps = season_of(decide(grounds_of(case)), meeting=2).steps
    served = [(each.code, each.number, each.begins, each.ends) for each in articles_of(steps)]
    assert [each for each in served if each[0] == "piston"] == [("piston", n, n - 1, n) for n in (1, 2, 3, 4)]
    assert [each for each in served if each[0] == "gear_5"] == [("gear_5", 0, 0, 4)]


def test_a_build_opened_so_often_that_nobody_would_sell_it_says_so_before_all_else() -> None:
    refresh, full = option(MOTOCROSS, "refresh"), option(MOTOCROSS, "full")
    plan = season(MOTOCROSS, "full")
    said = warned(full, (refresh, full), 2).attention[0]
    openings = sum(each.gross.typical for each in plan.openings)
    assert f"opened {len(plan.openings)} times, and the openings cost {openings:,.2f}" in said
    assert "Sensible instead: refresh, opened" in said
    assert f"{refresh.planned_gross.typical:,.2f} for the season" in said


def test_openings_that_every_way_of_building_needs_are_no_reason_to_warn() -> None:
    refresh, full = option(MOTOCROSS, "refresh"), option(MOTOCROSS, "full")
    assert refresh.planned_gross.typical > 2 * refresh.gross.typical
    assert warned(refresh, (refresh, full), 2) is refresh


def test_a_full_power_sprint_season_with_cheap_openings_is_sold() -> None:
    refresh, full = option(SPRINT, "refresh"), option(SPRINT, "full")
    assert not oversold(full, (refresh, full))


def test_with_no_other_way_beside_it_a_shorter_season_is_what_makes_sense() -> None:
    alone = option(MOTOCROSS, "full")
    assert alone.oversold
    assert "likelier to stop on the way than to see the season out" in alone.attention[0]
    assert "a shorter season on it, 8.8 hours between openings" in alone.attention[0].replace(
        "\N{NO-BREAK SPACE}", " "
    )
