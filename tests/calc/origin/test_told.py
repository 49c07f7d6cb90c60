"""What a component, a price and an hour say of themselves when they are opened."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from quotes.calc.compare import compare
from quotes.calc.origin.opened import opened
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import Explained, explain
from quotes.calc.sheet.words import NO_BREAK
from tests.calc.asked import asked, ran
from tests.calc.origin.cases import spring, tier
from tests.calc.small import SHOP
from tests.cast import shipped


def words(figure: Origin) -> str:
    """Everything that the figure says, with all its parts."""
    said = (f"{each.title}: {each.value}. {each.rule} {each.source}" for each in figure.walk())
    return "\n".join(said).replace(NO_BREAK, " ")


def part(figure: Origin, title: str) -> Origin:
    return next(each for each in figure.walk() if each.title == title)


def with_spring(value: str) -> Explained:
    """A four of 2,790 sprint miles, its springs left in by hand and measured."""
    request = asked(
        "four600", ran(2790), readings=(spring(value),), leave=("valve_spring",), tiers=("refresh",)
    )
    option = compare(request, shipped("four600"), SHOP).option("refresh")
    return explain(request, shipped("four600"), SHOP, option)


def test_a_measured_part_says_what_the_clock_says_and_what_was_measured() -> None:
    said = words(opened(with_spring("38.7"), "component:valve_spring"))
    assert "clock says 62 %, measured 30 %: counted as 46 %" in said
    assert "free length: 38.7 mm: 30 %. from 39.0 as new to a limit of 38.0 mm" in said


def test_a_used_part_names_its_stretches_in_the_tune_of_their_day() -> None:
    said = words(opened(tier("sprint twin on a full tune", "full"), "component:crankshaft"))
    sprint = shipped("twin650").duties["sprint"].name.lower()
    assert f"800 miles of {sprint}, built as full power, 01 Mar 2026 to 01 Jun 2026" in said
    assert "400 miles of track day, built as full power" in said


def test_a_renewed_part_is_new_and_says_why() -> None:
    age = part(opened(tier("motocross single", "refresh"), "component:piston"), "Age when the service begins")
    assert age.value == "new"
    assert age.rule.startswith("Renewed. ")


def test_the_rate_of_wear_comes_cause_by_cause() -> None:
    rate = part(opened(tier("endurance four", "full"), "component:valve_spring"), "Rate of wear")
    assert [each.title.split(":")[0] for each in rate.parts] == ["inertia", "heat"]
    assert "severity 0.75 of endurance" in rate.parts[0].rule
    assert "of full power" in rate.parts[0].rule


def test_a_part_that_stays_wears_by_the_grade_that_it_was_fitted_in() -> None:
    """Stock springs that stay in on full power keep their own grade, at an opening as well."""
    built, opened_once, *_ = tier("endurance four", "full").jobs
    as_it_came = replace(built, fates={})
    assert built.grade("valve_spring") == "performance"
    assert as_it_came.grade("valve_spring") == "stock"
    stays = replace(opened_once, fates={}, before=as_it_came)
    assert stays.grade("valve_spring") == "stock"
    assert replace(stays, before=built).grade("valve_spring") == "performance"


def test_a_life_names_its_source_its_confidence_and_the_evidence_behind_it() -> None:
    said = words(opened(tier("endurance four", "refresh"), "component:con_rod"))
    assert "Life: 14,000 miles. By then 10 in 100 sets have failed" in said
    assert "common practice, no source; confidence low" in said
    assert "Evidence, r0: worth 2 failures." in said


def test_how_the_engine_is_looked_after_moves_the_share_that_stops_it() -> None:
    share = part(
        opened(tier("sprint twin on a full tune", "full"), "component:crankshaft"),
        "Share that stops the engine, s",
    )
    assert "checked once a season: half of the warnings are missed" in share.rule


def test_an_hour_says_what_brought_it_in_and_how_it_is_counted() -> None:
    said = words(opened(tier("endurance four", "full"), "operation:valves_out"))
    assert "For each valve: 0.8 h. 0.05 h \N{MULTIPLICATION SIGN} 16" in said
    assert "Part of full power." in said


def test_a_part_s_price_goes_from_cost_through_the_markup_to_the_cap() -> None:
    said = words(opened(tier("endurance four", "full"), "line:part:piston"))
    assert "Cost to us: 136.00." in said
    assert "With markup: 197.20. 45 % on a cost of 50.00 and under 150.00." in said
    assert "List price: 170.00. Never more than list, and it is: the list price holds." in said


def test_who_may_not_see_costs_sees_neither_cost_nor_markup() -> None:
    seen = opened(tier("endurance four", "full"), "section:part").without_costs()
    assert "List price" in words(seen)
    assert "Cost to us" not in words(seen)
    assert "arkup" not in words(seen)


def test_what_was_set_by_hand_says_so_with_its_note() -> None:
    line = opened(tier("endurance four", "refresh"), "line:part:engine_oil")
    assert line.exact == Decimal("19.98")
    assert "Set by hand: quantity 2, price 9.99. Own drum." in words(line)


def test_what_opens_by_itself_is_closed_beneath_another_figure() -> None:
    folded = opened(tier("endurance four", "refresh"), "gross").folded()
    assert folded.parts[0].key == "net"
    assert folded.parts[0].parts == ()
