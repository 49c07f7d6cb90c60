"""A tier in words, from the shipped figures."""

from __future__ import annotations

import pytest

from catalogue.calc.tier_reading import life_share, read_tier
from tests.cast import shipped


def test_the_worked_example_of_the_tiers_holds() -> None:
    """4500 miles become 4050 under mild and 1250 under full power: the example in tiers.yaml."""
    four = shipped("four600")
    spring = four.components["valve_spring"]
    assert 4500 * life_share(spring, four.tiers["mild"]) == pytest.approx(4050)
    assert 4500 * life_share(spring, four.tiers["full"]) == pytest.approx(1250)
    assert life_share(spring, four.tiers["refresh"]) == 1


def test_refresh_changes_nothing_in_life_or_figures() -> None:
    reading = read_tier(shipped("four600"), "refresh")
    assert reading.life == ("Everything lasts as long as before.",)
    assert reading.examples == ()
    assert reading.must_allow == ()
    assert dict(reading.figures)["Compression"] == "as it is, 13 to 1"


def test_power_is_a_band_on_the_type_s_own() -> None:
    assert dict(read_tier(shipped("four1000"), "full").figures)["Power at the crank"] == (
        "195 hp to about 226 hp, from 215 to 238: 16 % up, from 10 to 22"
    )


def test_each_part_renewed_says_why() -> None:
    why = {part.code: part.why for part in read_tier(shipped("twin650"), "full").renewed}
    assert why["con_rod"] == "A race-quality part, for the load that the tier puts on it."
    assert why["valve_seal"] == "Never used twice."
    assert why["cam_chain"] == "Rider safety: it may lock the rear wheel."
    assert why["coolant"] == "Changed at every build."
    assert why["selector"] == "Its life is counted and starts afresh."


def test_what_stays_in_unless_the_cases_are_open_says_so() -> None:
    reading = read_tier(shipped("four600"), "refresh")
    assert {part.code for part in reading.renewed if "cases are open" in part.what} == {"rings", "circlip"}
    assert {part.code for part in reading.if_due if "cases are open" in part.what} == {"piston"}
    assert not any("cases are open" in part.what for part in read_tier(shipped("twin650"), "refresh").renewed)


def test_work_sent_out_says_how_much() -> None:
    sent = {code: amount for code, _, amount in read_tier(shipped("four600"), "full").sent_out}
    assert sent["seat_cut"] == "16 by the valve"
    assert sent["gear_undercut"] == "about 67 % of 6 by the gear pair"


def test_an_unknown_tier_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        read_tier(shipped("four600"), "extreme")
