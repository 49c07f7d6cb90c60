"""The probability plot: marks where the ages are, laws as straight lines, all numbers in its table."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.learning.plot import LineKind, ProbabilityPlot, probability_plot
from quotes.calc.life.bounds import likelihood_bounds
from quotes.calc.life.fit import fit
from quotes.calc.life.life_data import LifeData
from quotes.documents.drawing.probability_plot import draw_probability_plot
from quotes.documents.drawing.tracks import FormName
from quotes.documents.plot_figure import SHOWN, plot_figure
from tests.documents.drawn import SVG, assert_sound, parsed, words_of

SHAPES: tuple[FormName, ...] = ("wide", "narrow")
every_shape = pytest.mark.parametrize("shape", SHAPES)
CATALOGUE: tuple[LineKind, str, float, float] = ("catalogue", "catalogue", 900.0, 3.0)
LAWS: list[tuple[LineKind, str, float, float]] = [
    CATALOGUE,
    ("shop", "catalogue and our record", 700.0, 3.0),
    ("likelihood", "our record alone", 606.0, 1.7),
]


def plot(*failures: float, **more: object) -> ProbabilityPlot:
    data = LifeData(failures=failures, **more)
    return probability_plot(data, LAWS, "hours")


@every_shape
def test_failures_are_discs_and_what_was_found_late_a_ring_on_a_bar(shape: FormName) -> None:
    svg = draw_probability_plot(plot(200.0, 300.0, intervals=((100.0, 400.0),), suspensions=(500.0,)), shape)
    assert_sound(svg)
    circles = list(parsed(svg).iter(f"{SVG}circle"))
    assert sum(each.attrib["fill"] == "#17191c" for each in circles) == 2 + 1  # one more in the key
    assert sum(each.attrib["fill"] == "#fdfdfa" for each in circles) == 1 + 1


def test_a_disc_stands_at_its_age_and_share() -> None:
    """Half way between two marks of one decade on the logarithm of age, and on its share's own height."""
    svg = draw_probability_plot(plot(100.0, 200.0, 400.0), "wide")
    xs = [float(each.attrib["cx"]) for each in parsed(svg).iter(f"{SVG}circle")][:3]
    assert xs[1] - xs[0] == pytest.approx(xs[2] - xs[1], abs=0.15)
    ys = [float(each.attrib["cy"]) for each in parsed(svg).iter(f"{SVG}circle")][:3]
    up = [math.log(-math.log1p(-share)) for share in (0.7 / 3.4, 0.5, 2.7 / 3.4)]
    assert (ys[0] - ys[1]) / (ys[1] - ys[2]) == pytest.approx((up[1] - up[0]) / (up[2] - up[1]), abs=0.01)


@every_shape
def test_every_law_has_its_own_stroke_and_stands_in_the_key(shape: FormName) -> None:
    svg = draw_probability_plot(plot(200.0, 300.0), shape)
    lines = list(parsed(svg).iter(f"{SVG}line"))
    assert sum(each.attrib.get("stroke-dasharray") == "9 5" for each in lines) == 2
    assert sum(each.attrib.get("stroke-dasharray") == "2 4" for each in lines) == 2
    for name in ("catalogue", "catalogue and our record", "our record alone"):
        assert name in words_of(svg)


@every_shape
@pytest.mark.parametrize(
    "data", [{"suspensions": (100.0,)}, {"intervals": ((0.0, 50.0),)}, {"failures": (5.5,)}]
)
def test_one_item_of_any_kind_is_drawn(data: dict[str, object], shape: FormName) -> None:
    assert_sound(draw_probability_plot(probability_plot(LifeData(**data), LAWS, "hours"), shape))


@every_shape
def test_a_law_with_a_long_name_keeps_to_the_drawing(shape: FormName) -> None:
    laws: list[tuple[LineKind, str, float, float]] = [
        ("catalogue", "a law of " + "many words " * 8, 900.0, 3.0)
    ]
    assert_sound(draw_probability_plot(probability_plot(LifeData(failures=(100.0,)), laws, "miles"), shape))


AGES = st.lists(st.floats(0.5, 90_000), max_size=12).map(tuple)


@settings(max_examples=25, deadline=None)
@given(AGES, AGES, st.lists(st.tuples(st.floats(0, 500), st.floats(501, 9000)), max_size=4).map(tuple))
def test_any_ages_are_drawn_without_one_word_on_another(
    failures: tuple[float, ...], sound: tuple[float, ...], intervals: tuple[tuple[float, float], ...]
) -> None:
    data = LifeData(failures=failures, suspensions=sound, intervals=intervals)
    made = probability_plot(data, [CATALOGUE], "miles")
    for shape in SHAPES:
        svg = draw_probability_plot(made, shape)
        assert_sound(svg)
        marks = sum(1 for _ in parsed(svg).iter(f"{SVG}circle"))
        kinds = len({point.kind for point in made.points})
        assert marks == len(made.points) + kinds
    assert sum(1 for row in plot_figure(made).rows if row.share) == len(made.points)


def test_a_look_at_hardly_any_age_does_not_stretch_the_axis() -> None:
    made = probability_plot(LifeData(intervals=((5e-324, 501.0),)), [CATALOGUE], "miles")
    assert made.ages[0] > 1.0
    assert_sound(draw_probability_plot(made, "narrow"))


def test_the_table_has_every_item_and_law() -> None:
    figure = plot_figure(plot(200.0, 300.0, intervals=((100.0, 400.0),), suspensions=(500.0,) * 3))
    assert [(row.age, row.became) for row in figure.rows] == [
        ("200", "failed"),
        ("100 to 400", "past its limit, between two looks"),
        ("300", "failed"),
        ("500", "still sound, 3 of them"),
    ]
    assert (figure.laws[0].name, figure.laws[0].shape, figure.laws[0].life) == ("catalogue", "3.0", "900")


def test_a_long_record_is_folded_after_its_first_rows() -> None:
    figure = plot_figure(plot(*(float(age) for age in range(100, 400, 10))))
    assert (len(figure.first), len(figure.rest)) == (SHOWN, 30 - SHOWN)


def test_many_still_sound_at_one_age_are_counted_over_their_tick() -> None:
    assert " 10 " in f" {words_of(draw_probability_plot(plot(200.0, suspensions=(500.0,) * 10), 'wide'))} "


@every_shape
def test_the_same_record_gives_the_same_bytes(shape: FormName) -> None:
    assert draw_probability_plot(plot(200.0), shape) == draw_probability_plot(plot(200.0), shape)


@every_shape
def test_the_band_lies_about_the_fitted_law_and_stands_in_the_table(shape: FormName) -> None:
    data = LifeData(failures=tuple(300.0 + 40.0 * place for place in range(12)), suspensions=(500.0, 900.0))
    fitted = fit(data)
    law: tuple[LineKind, str, float, float] = ("likelihood", "our record alone", fitted.eta, fitted.beta)
    laws = [CATALOGUE, law]
    drawn = probability_plot(data, laws, "hours", (fitted, likelihood_bounds(data, fitted, 0.9)))
    svg = draw_probability_plot(drawn, shape)
    assert_sound(svg)
    (area,) = parsed(svg).iter(f"{SVG}polygon")
    places = [tuple(map(float, pair.split(","))) for pair in area.attrib["points"].split()]
    low, high = places[: len(places) // 2], places[len(places) // 2 :][::-1]
    assert all(below[1] >= above[1] for below, above in zip(low, high, strict=True))
    assert "90 % sure at each age" in words_of(svg).replace("\N{NO-BREAK SPACE}", " ")
    figure = plot_figure(drawn)
    assert len(figure.band) == len(drawn.age_marks)
    assert figure.sure.startswith("90")


def test_without_a_fit_there_is_no_band() -> None:
    assert plot(200.0, 300.0).band is None
    assert plot_figure(plot(200.0, 300.0)).band == ()
