"""The steps of the ladder, and chances with loads reckoned otherwise, open to what the sheet shows."""

from __future__ import annotations

import math

import pytest

from quotes.calc.origin.opened import opened
from quotes.calc.origin.worked import Explained
from quotes.calc.tune.width import WAYS
from tests.calc.origin.cases import exact, left, tier, told


@pytest.fixture(
    params=[
        ("endurance four", "refresh"),
        ("motocross single", "mild"),
        ("sprint twin on a full tune", "full"),
    ],
    ids=str,
    scope="module",
)
def one(request: pytest.FixtureRequest) -> Explained:
    """One with prices by hand, one opened on the way, one firm."""
    return tier(*request.param)


def test_every_step_opens_to_its_price_what_it_adds_and_its_chance(one: Explained) -> None:
    assert len(one.option.ladder) > 1
    for shown in one.option.ladder:
        key = f"step:{shown.number}"
        assert opened(one, f"{key}:gross").added_up() == shown.gross
        assert opened(one, f"{key}:chance").added_up() == pytest.approx(shown.chance, abs=1e-9)
        if shown.number > 1:
            assert opened(one, f"{key}:more").added_up() == shown.more


def test_a_step_names_the_parts_that_it_adds_with_what_each_takes_off_the_hazard(one: Explained) -> None:
    for shown in one.option.ladder[1:]:
        parts = opened(one, f"step:{shown.number}:chance").parts
        changed = {part.key.rpartition(":")[2] for part in parts if ":component:" in part.key}
        counted = set(shown.adds) & one.hazards.keys()
        assert counted <= changed
        new = [part for part in parts if part.key.rpartition(":")[2] in counted]
        assert all(exact(part) < 0 for part in new)


def test_the_first_step_costs_so_much_more_than_leaving_it() -> None:
    one, as_it_is = tier("endurance four", "refresh"), left("endurance four")
    over = one.option.ladder[0].gross - as_it_is.column.gross
    assert opened(one, "step:1:more").added_up() == over


def test_every_other_way_of_reckoning_opens_to_its_chance() -> None:
    for one in (tier("endurance four", "full"), tier("motocross single", "mild")):
        figures = one.option.tune_figures
        assert figures is not None
        assert figures.width is not None
        for way in WAYS:
            figure = opened(one, f"reckoned:{way}")
            assert figure.added_up() == pytest.approx(getattr(figures.width, way), abs=1e-9)
            assert figure.parts[0].key == "chance"
        lowest, highest = opened(one, "reckoned").parts
        assert (lowest.added_up(), highest.added_up()) == (figures.width.low, figures.width.high)


def test_only_what_a_load_wears_is_reckoned_otherwise() -> None:
    """What is left over is what the mean over seasons makes of it."""
    one = tier("endurance four", "full")
    figure = opened(one, "reckoned:from_geometry")
    changed, rest = [exact(part) for part in figure.parts[1:-1]], exact(figure.parts[-1])
    assert 5 < len(changed) < len(one.hazards)
    assert abs(rest) < 0.25 * math.fsum(abs(each) for each in changed)


@pytest.mark.parametrize(
    "key", ["step:0", "step:99:gross", "step:1:wheel", "step:1:line:part:wheel", "step:", "reckoned:wheel"]
)
def test_a_step_or_a_way_that_is_none_has_no_origin(key: str) -> None:
    with pytest.raises(KeyError):
        opened(told("endurance four")[0], key)
    with pytest.raises(KeyError):
        opened(left("endurance four"), key)
