"""The services of a season, and the pictures' tables, open to the figures that they show."""

from __future__ import annotations

import math

import pytest

from quotes.calc.origin.opened import opened
from quotes.calc.origin.worked import Explained
from tests.calc.origin.cases import exact, tier


@pytest.fixture(
    params=[("endurance four", "full"), ("motocross single", "mild"), ("sprint twin on a full tune", "full")],
    ids=str,
    scope="module",
)
def one(request: pytest.FixtureRequest) -> Explained:
    """Options that are opened on the way."""
    return tier(*request.param)


def test_a_later_service_opens_to_what_the_season_says_of_it(one: Explained) -> None:
    assert one.option.season is not None
    for each in one.option.season.services:
        key = f"service:{each.number}"
        assert opened(one, f"{key}:gross").added_up() == each.gross.typical
        assert opened(one, f"{key}:hours").added_up() == each.hours
        assert opened(one, f"{key}:chance").added_up() == pytest.approx(each.chance.value, abs=1e-9)
        assert exact(opened(one, f"{key}:wheel_lock")) == pytest.approx(each.wheel_lock, abs=1e-9)
        assert f"{each.ready.p80:%d %b %Y}" in opened(one, f"{key}:ready").value
        if each.number > 1:
            assert opened(one, f"{key}:opened_on").added_up() == each.opened_on.toordinal()


def test_a_component_of_a_season_is_its_services_added_up() -> None:
    """A part that stays serves on, one that is renewed begins anew; each service opens by itself."""
    one = tier("motocross single", "full")
    assert len(one.jobs) == 3
    for code in one.hazards:
        parts = opened(one, f"component:{code}").parts
        assert [part.key for part in parts] == [f"service:{number}:component:{code}" for number in (1, 2, 3)]
        assert math.fsum(exact(part) for part in parts) == pytest.approx(one.hazards[code], abs=1e-12)


def test_the_pictures_tables_open_to_the_figures_that_they_show(one: Explained) -> None:
    named = [share for share in one.option.where_the_chance_goes if share.component]
    for share in named:
        assert exact(opened(one, f"stops:{share.component}")) == pytest.approx(share.stops_in_100, abs=1e-9)
    rest = one.option.where_the_chance_goes[-1]
    codes = ",".join(share.component for share in named)
    assert exact(opened(one, f"others:{codes}")) == pytest.approx(rest.stops_in_100, abs=1e-9)
    for bar in one.option.lives:
        figure = opened(one, f"life_used:{bar.component}")
        assert (exact(figure.parts[0]), exact(figure)) == pytest.approx((bar.at_start, bar.at_end), abs=1e-9)
