"""Leaving it opens as the options do, and every key that a figure bears opens."""

from __future__ import annotations

import pytest

from quotes.calc.origin.opened import every_figure, opened
from quotes.calc.origin.worked import Way
from tests.calc.origin.cases import ENGINES, exact, left, tier


def test_what_was_set_by_hand_on_an_option_does_not_bear_on_leaving_it() -> None:
    """The refresh of this engine has a line of its own, a price by hand and a discount."""
    one = left("endurance four")
    assert not [key for key in one.first.lines if "own-" in key or key.startswith("discount")]
    assert opened(one, "gross").added_up() == one.column.gross


@pytest.mark.parametrize("engine", ENGINES)
def test_what_leaving_it_gives_is_what_its_column_says(engine: str) -> None:
    way = left(engine)
    column = way.column
    assert opened(way, "chance").added_up() == pytest.approx(column.chance.value, abs=1e-9)
    assert exact(opened(way, "wheel_lock")) == pytest.approx(column.wheel_lock.value, abs=1e-9)
    assert opened(way, "hours").added_up() == column.hours
    assert [part.key for part in opened(way, "falls_due").parts] == [
        f"component:{due.component}" for due in column.falls_due
    ]
    for share in column.where_the_chance_goes[:10]:
        assert exact(opened(way, f"stops:{share.component}")) == pytest.approx(share.stops_in_100, abs=1e-9)


def test_every_key_that_a_figure_or_a_part_bears_opens() -> None:
    for way in (tier("endurance four", "refresh"), tier("motocross single", "mild"), left("endurance four")):
        _every_key_opens(way)


def _every_key_opens(way: Way) -> None:
    figures = every_figure(way)
    keys = {each.key for figure in figures for each in figure.walk() if each.key}
    assert len(keys) > 60
    assert [key for key in keys if not opened(way, key).title] == []
