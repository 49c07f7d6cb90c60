"""Every figure that opens comes to what its parts come to, and to what the sheet shows."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest

from quotes.calc.origin.opened import every_figure, opened
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import Explained, Way
from tests.calc.origin.cases import ENGINES, exact, left, tier, told


@pytest.fixture(
    params=[(engine, number) for engine in ENGINES for number in range(3)], ids=str, scope="module"
)
def one(request: pytest.FixtureRequest) -> Explained:
    """Every tier of every engine, one after the other."""
    engine, number = request.param
    option: Explained = told(engine)[number]
    return option


@pytest.fixture(
    params=[(engine, number) for engine in ENGINES for number in range(4)], ids=str, scope="module"
)
def way(request: pytest.FixtureRequest) -> Way:
    """The same, and every engine left as it is."""
    engine, number = request.param
    return told(engine)[number] if number < 3 else left(engine)


def test_every_figure_is_what_its_parts_come_to(way: Way) -> None:
    checked = [
        (float(whole), exact(each), each.title)
        for figure in (*every_figure(way), *pictured(way))
        for each in figure.walk()
        if (whole := each.added_up()) is not None
    ]
    assert len(checked) > 200
    wrong = [each for each in checked if each[0] != pytest.approx(each[1], abs=1e-9, rel=1e-12)]
    assert wrong == []


def pictured(way: Way) -> list[Origin]:
    """The figures of the pictures' tables, and of every line, tax and service."""
    causes = [f"stops:{code}" for code in (*way.hazards, "own_hands")]
    lives = [f"life_used:{code}" for code in way.hazards]
    prices = [f"price:{key}" for key in way.first.lines]
    taxes = [f"tax:{group.code}" for group in way.first.sums.groups]
    services = [
        f"service:{job.number}" for job in way.jobs if isinstance(way, Explained) and way.option.season
    ]
    return [opened(way, key) for key in (*causes, *lives, *prices, *taxes, *services)]


def test_the_hazards_come_to_the_chance_that_is_shown(one: Explained) -> None:
    figure = opened(one, "chance")
    hazard = math.fsum(exact(part) for part in figure.counted)
    assert math.exp(-hazard) == pytest.approx(one.option.chance.value, abs=1e-9)
    counted = {part.key for each in figure.walk() for part in each.parts if part.key}
    assert counted == {f"component:{code}" for code in one.case.levels}


def test_the_riders_hazards_come_to_the_chance_of_a_locked_wheel(one: Explained) -> None:
    spared = opened(one, "wheel_lock").parts[0]
    assert 1 - exact(spared) == pytest.approx(one.option.wheel_lock.value, abs=1e-9)


def test_hours_are_those_of_their_operations_fixed_and_by_the_piece(one: Explained) -> None:
    hours = opened(one, "hours")
    assert hours.exact == one.option.hours
    assert hours.added_up() == one.option.hours
    operations = [part for kind in hours.parts for part in kind.parts]
    assert sorted(each.key for each in operations) == sorted(f"operation:{c}" for c in one.option.operations)


def test_every_line_opens_to_its_net_to_the_cent(one: Explained) -> None:
    for line in (*one.option.lines, *one.option.if_needed):
        held = "line" if line in one.option.lines else "needed"
        figure = opened(one, f"{held}:{line.key}")
        assert figure.exact == line.net
        assert figure.added_up() == line.net, line.key


def test_lines_and_taxes_come_to_the_sum_with_tax(one: Explained) -> None:
    gross = opened(one, "gross")
    assert gross.added_up() == one.option.gross.typical
    assert opened(one, "net").added_up() == one.option.net.typical


def test_what_a_part_left_would_cost_is_what_the_sheet_says(one: Explained) -> None:
    for code, risk in {**one.option.offered, **one.option.left}.items():
        figure = opened(one, f"adding:{code}")
        assert figure.exact == risk.cost_to_renew
        assert sum((exact(part) for part in figure.parts), 0.0) == pytest.approx(
            float(risk.cost_to_renew), abs=0.01
        )


def test_good_for_is_the_least_of_its_bounds(one: Explained) -> None:
    assert (
        opened(one, "good_for").value.split()[0]
        == min(opened(one, "good_for").parts, key=exact).value.split()[0]
    )


def test_the_ready_dates_are_those_of_the_sheet(one: Explained) -> None:
    said = {part.title: part.value for part in opened(one, "ready").parts}
    ready = one.option.ready
    assert said["Ready, even chance"] == f"{ready.typical:%d %b %Y}"
    assert said["Ready, promised, 8 in 10"] == f"{ready.p80:%d %b %Y}"
    assert said["Ready, nearly sure, 9 in 10"] == f"{ready.p90:%d %b %Y}"


def test_a_shop_factor_is_a_part_of_its_own() -> None:
    """For one service it is `a0 ln(1 + f s D / b)` less `a0 ln(1 + s D / b)`, component by component."""
    one = tier("motocross single", "refresh", shop_factor=1.3)
    figure = opened(one, "chance")
    factor = next(part for part in figure.parts if part.title == "Shop factor 1.3")
    assert len(one.steps) == 1
    more = 0.0
    for wear in one.measures.wears.values():
        stops = wear.stopping * wear.damage(one.case.use) / wear.prior_scale
        more += wear.evidence * (math.log1p(1.3 * stops) - math.log1p(stops))
    assert exact(factor) == pytest.approx(more, rel=1e-9)
    assert figure.added_up() == pytest.approx(one.option.chance.value, abs=1e-9)


def test_a_season_as_planned_is_the_hazards_alone() -> None:
    """The spread of seasons is worked out by itself, so it hides nothing that is missing from the rest."""
    for code in ("refresh", "full"):
        one = tier("motocross single", code)
        rest = [part for part in opened(one, "chance").counted if part.title != "The season itself"]
        faults = one.driven.faults_in_all * one.shop.assembly_fault_chance
        articles = [
            (each, one.driven.drive.course.hazards(each)) for each in one.driven.drive.course.articles
        ]
        alone = math.fsum(float(rows.sum()) for _, rows in articles) + faults
        assert math.fsum(exact(part) for part in rest) == pytest.approx(alone, abs=1e-12)


def test_the_loss_named_is_weighed_with_the_chance_of_being_stopped() -> None:
    one = tier("endurance four", "refresh")
    figure = opened(one, "expected_loss")
    assert figure.added_up() == one.option.expected_loss
    assert exact(figure.parts[1]) == pytest.approx(3000 * (1 - one.option.chance.value), abs=0.01)


def test_a_figure_that_is_not_there_has_no_origin() -> None:
    one = tier("motocross single", "refresh")
    for key in ("expected_loss", "line:part:wheel", "component:wheel", "wheel", "", "work:wheel:wheel"):
        with pytest.raises(KeyError):
            opened(one, key)


def test_a_discount_takes_its_share_from_every_rate() -> None:
    one = tier("endurance four", "refresh")
    discounts = [line for line in one.option.lines if line.kind == "discount"]
    assert len(discounts) == 2
    assert opened(one, "section:discount").added_up() == sum((line.net for line in discounts), Decimal(0))


def test_the_margin_is_what_the_bought_lines_bring_less_what_they_cost(one: Explained) -> None:
    bought = [line for line in one.option.lines if line.cost is not None]
    figure = opened(one, "margin")
    assert figure.private
    assert figure.added_up() == sum((line.net - (line.cost or Decimal(0)) for line in bought), Decimal(0))
