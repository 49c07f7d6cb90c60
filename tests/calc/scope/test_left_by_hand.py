"""A line that is left by hand comes off the option, and nothing else comes on in its place."""

from __future__ import annotations

import pytest

from quotes.calc.ask.request import Edits
from quotes.calc.compare import compare
from quotes.calc.sheet.values import Option
from tests.calc.asked import asked, ran
from tests.calc.small import SHOP
from tests.cast import shipped


def refresh(*leave: str) -> Option:
    """A 600 inline four that came at 4,100 sprint miles, for 2,000 endurance miles."""
    request = asked("four600", ran(4100), tiers=("refresh",), edits={"refresh": Edits(leave=leave)})
    return compare(request, shipped("four600"), SHOP).option("refresh")


@pytest.mark.parametrize("left", ["rings", "head_bolt", "con_rod", "gear_2"])
def test_what_is_left_by_hand_only_takes_off(left: str) -> None:
    whole, rest = refresh(), refresh(left)
    assert left in whole.renewed
    assert left not in rest.renewed
    assert set(rest.renewed) < set(whole.renewed)
    assert set(rest.reconditioned) <= set(whole.reconditioned)
    assert rest.gross.typical < whole.gross.typical
    assert rest.chance.value < whole.chance.value


def test_the_option_says_that_the_aim_is_given_up_for_it() -> None:
    assert refresh("rings").notes[0] == (
        "With what is left by hand this plan reaches about 18 in 20; the aim was about 19 in 20. "
        "Nothing else was taken in its place."
    )


def test_what_would_bring_the_part_along_is_left_with_it() -> None:
    whole, rest = refresh(), refresh("piston_pin")
    assert {"piston", "rings", "circlip"} <= whole.renewed.keys()
    assert not {"piston", "piston_pin"} & rest.renewed.keys()
