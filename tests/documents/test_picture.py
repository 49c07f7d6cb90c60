"""The picture: labels apart, marks where the numbers are, attributes only, the same bytes again."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from decimal import Decimal
from xml.etree import ElementTree

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.drawing.boxes import Box
from quotes.documents.drawing.letters import width
from quotes.documents.drawing.shapes import ShapeName
from quotes.documents.picture import money_against_chance, picture_notes, scale_starts_at
from tests.documents.samples import EDGES, comparison_with, moved
from tests.documents.worked_sheet import worked_four, worked_single
from tests.sample_sheet import sample_comparison

SVG = "{http://www.w3.org/2000/svg}"
SHAPES: tuple[ShapeName, ...] = ("wide", "narrow", "paper")
every_edge = pytest.mark.parametrize("edge", EDGES.values(), ids=list(EDGES))
every_shape = pytest.mark.parametrize("shape", SHAPES)


def parsed(comparison: Comparison, shape: ShapeName) -> ElementTree.Element:
    return ElementTree.fromstring(money_against_chance(comparison, shape))


def text_box(text: ElementTree.Element) -> Box:
    """Where a piece of text is drawn, by the widths of its letters."""
    size, x, y = (float(text.attrib[key]) for key in ("font-size", "x", "y"))
    long = width(text.text or "", "Besley" if "Besley" in text.attrib["font-family"] else "B612", size)
    left = x - {"start": 0.0, "middle": long / 2, "end": long}[text.attrib["text-anchor"]]
    return Box(left, y - size * 0.75, left + long, y + size * 0.05)


def texts(root: ElementTree.Element) -> list[tuple[str, Box]]:
    return [(text.text or "", text_box(text)) for text in root.iter(f"{SVG}text")]


def assert_no_text_touches_another(root: ElementTree.Element) -> None:
    for (one, box), (other, other_box) in itertools.combinations(texts(root), 2):
        assert not box.touches(other_box), f"{one!r} touches {other!r}"


@every_edge
@every_shape
def test_no_label_touches_another(edge: Callable[[], Comparison], shape: ShapeName) -> None:
    assert_no_text_touches_another(parsed(edge(), shape))


@every_edge
@every_shape
def test_every_label_stays_on_the_drawing(edge: Callable[[], Comparison], shape: ShapeName) -> None:
    root = parsed(edge(), shape)
    frame = Box(0, 0, float(root.attrib["width"]), float(root.attrib["height"]))
    for words, box in texts(root):
        assert box.within(frame), words


@every_edge
@every_shape
def test_no_label_covers_the_disc_of_an_option(edge: Callable[[], Comparison], shape: ShapeName) -> None:
    root = parsed(edge(), shape)
    for disc in root.iter(f"{SVG}circle"):
        if disc.attrib["fill"] == "#10398f":
            reach = Box.around(float(disc.attrib["cx"]), float(disc.attrib["cy"]), float(disc.attrib["r"]))
            for words, box in texts(root):
                assert not box.touches(reach), words


@every_edge
@every_shape
def test_each_option_has_its_name_and_price_on_the_drawing(
    edge: Callable[[], Comparison], shape: ShapeName
) -> None:
    comparison = edge()
    written = [words for words, _ in texts(parsed(comparison, shape))]
    for option in comparison.options:
        assert option.name in written
        assert f"${round(option.gross.typical):,}" in written


def with_bands(option: Option, apart: float) -> Option:
    """The option with a band on each of its steps."""
    steps = (
        step.model_copy(
            update={"low": max(step.chance - apart, 0.001), "high": min(step.chance + apart, 0.999)}
        )
        for step in option.ladder
    )
    return option.model_copy(update={"ladder": tuple(steps)})


PRICES = st.decimals(min_value=50, max_value=60_000, places=2).map(str)
BANDS = st.lists(st.floats(0.01, 0.99), min_size=3, max_size=3).map(sorted)


@settings(max_examples=20, deadline=None)
@given(
    st.lists(st.tuples(PRICES, BANDS), min_size=3, max_size=3),
    st.none() | PRICES.map(Decimal),
    st.floats(0.0, 0.2),
)
@example(
    [("50.00", [0.125, 0.125, 0.5]), ("2527.76", [0.125, 0.375, 0.75]), ("3772.70", [0.125, 0.5, 0.875])],
    None,
    0.0,
)
@example(
    [("4703.40", [0.125, 0.5, 0.875]), ("1872.92", [0.244, 0.25, 0.875]), ("3123.40", [0.067, 0.75, 0.875])],
    None,
    0.0,
)
def test_labels_keep_apart_whatever_the_prices_and_chances(
    drawn: list[tuple[str, list[float]]], budget: Decimal | None, apart: float
) -> None:
    options = sample_comparison().options
    comparison = comparison_with(
        *(
            with_bands(moved(option, price, mid, low, high), apart)
            for option, (price, (low, mid, high)) in zip(options, drawn, strict=True)
        )
    ).model_copy(update={"budget": budget})
    for shape in SHAPES:
        root = parsed(comparison, shape)
        assert_no_text_touches_another(root)
        assert {option.name for option in options} <= {words for words, _ in texts(root)}


def test_discs_stand_where_the_numbers_say_even_when_they_coincide() -> None:
    root = parsed(EDGES["prices a few units apart"](), "wide")
    across = [
        float(disc.attrib["cx"])
        for disc in root.iter(f"{SVG}circle")
        if disc.attrib["fill"] == "#10398f" and float(disc.attrib["r"]) > 6
    ]
    assert len(across) == 3
    assert max(across) - min(across) < 1


@every_edge
@every_shape
def test_the_same_comparison_gives_the_same_bytes(edge: Callable[[], Comparison], shape: ShapeName) -> None:
    assert money_against_chance(edge(), shape) == money_against_chance(edge(), shape)


@every_shape
def test_the_drawing_carries_attributes_only(shape: ShapeName) -> None:
    drawn = money_against_chance(sample_comparison(), shape)
    assert not re.search(r"\sstyle=|<style|<script|\son\w+=|href", drawn)


@every_shape
def test_no_letter_is_under_eleven_px_at_the_smallest_size_drawn(shape: ShapeName) -> None:
    root = parsed(sample_comparison(), shape)
    # A 320 px phone leaves 288 px for the narrow shape; the wide one is shown from 800 px, in 592 px or more;
    # paper draws it 136 mm wide, which is 514 px.
    drawn = {"narrow": 288.0, "wide": 560.0, "paper": 514.0}[shape]
    scale = drawn / float(root.attrib["width"])
    assert min(float(text.attrib["font-size"]) for text in root.iter(f"{SVG}text")) * scale >= 11


def test_the_spoken_description_holds_the_numbers() -> None:
    root = parsed(sample_comparison(), "wide")
    spoken = root.findtext(f"{SVG}desc") or ""
    for told in (
        "from 14 to 20",
        "Refresh costs $5,014",
        "about 19 in 20, likely 18 to 19",
        "Leave it: about 16",
    ):
        assert told in spoken
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"] == "picture-wide-title picture-wide-desc"


@pytest.mark.parametrize(
    ("edge", "starts"), [("sample", 14), ("one option", 15), ("from hopeless to nearly sure", 0)]
)
def test_the_upright_scale_says_where_it_starts(edge: str, starts: int) -> None:
    comparison = EDGES[edge]()
    assert scale_starts_at(comparison) == starts
    assert f"starts at {starts}" in money_against_chance(comparison)


def test_steps_are_open_rings_numbered_as_in_the_table() -> None:
    root = parsed(sample_comparison(), "wide")
    steps = [step for option in sample_comparison().options for step in option.ladder if not step.is_option]
    rings = [each for each in root.iter(f"{SVG}circle") if each.attrib["r"] == "3.2"]
    assert len(rings) == len(steps) + 1  # one more in the key
    written = [words for words, _ in texts(root)]
    assert sorted(words for words in written if words in "1234") == sorted(str(step.number) for step in steps)


def test_one_aim_is_one_dotted_line_and_several_are_pieces() -> None:
    assert money_against_chance(sample_comparison()).count("stroke-dasharray") == 1
    options = [
        option.model_copy(update={"chance": option.chance.model_copy(update={"target": 0.9 + 0.02 * index})})
        for index, option in enumerate(sample_comparison().options)
    ]
    drawn = money_against_chance(comparison_with(*options))
    assert drawn.count("stroke-dasharray") == 3
    assert "aim:" not in drawn


@every_shape
def test_the_aim_says_what_it_is_on_a_crowded_drawing(shape: ShapeName) -> None:
    for sheet in (worked_four(), worked_single()):
        assert "aim: 19 in 20" in [words for words, _ in texts(parsed(sheet.comparison, shape))]


def test_an_option_that_is_opened_on_the_way_has_no_aim_for_the_season() -> None:
    options = [
        option.model_copy(update={"chance": option.chance.model_copy(update={"to_first_opening": 0.95})})
        for option in sample_comparison().options
    ]
    assert "stroke-dasharray" not in money_against_chance(comparison_with(*options))


THIN = 'stroke="#4d5156" stroke-width="1"'


def test_a_step_has_a_thin_band_where_the_sheet_knows_it() -> None:
    options = [with_bands(option, 0.03) for option in sample_comparison().options]
    bare = money_against_chance(sample_comparison())
    assert money_against_chance(comparison_with(*options)).count(THIN) > bare.count(THIN)


def test_steps_too_near_to_tell_their_bands_apart_have_none() -> None:
    option = with_bands(sample_comparison().options[0], 0.03)
    near = [step.model_copy(update={"gross": option.gross.typical}) for step in option.ladder]
    drawn = money_against_chance(comparison_with(option.model_copy(update={"ladder": tuple(near)})))
    assert drawn.count(THIN) == money_against_chance(comparison_with(sample_comparison().options[0])).count(
        THIN
    )


@every_shape
def test_a_budget_is_an_upright_dotted_line_that_says_what_it_is(shape: ShapeName) -> None:
    comparison = sample_comparison(budget=Decimal(6000))
    root = parsed(comparison, shape)
    assert "budget $6,000" in [words for words, _ in texts(root)]
    upright = [
        line
        for line in root.iter(f"{SVG}line")
        if "stroke-dasharray" in line.attrib and line.attrib["x1"] == line.attrib["x2"]
    ]
    assert len(upright) == 1
    assert_no_text_touches_another(root)
    assert "The budget is $6,000." in (root.findtext(f"{SVG}desc") or "")


@every_shape
def test_an_option_that_is_opened_on_the_way_stands_at_the_price_of_its_season(shape: ShapeName) -> None:
    comparison = worked_single().comparison
    root = parsed(comparison, shape)
    written = [words for words, _ in texts(root)]
    assert_no_text_touches_another(root)
    seasons = [option for option in comparison.options if option.season]
    for option in seasons:
        assert option.season is not None
        assert f"${round(option.season.gross.typical):,}" in written
    assert sum(words.startswith("opened ") for words in written) == len(seasons) > 0
    diamonds = [each for each in root.iter(f"{SVG}path") if each.attrib["d"].endswith("l5 -5l5 5l-5 5z")]
    assert len(diamonds) == len(seasons) + 1  # one more in the key
    discs = [
        float(each.attrib["cx"]) for each in root.iter(f"{SVG}circle") if each.attrib["fill"] == "#10398f"
    ]
    left = {"wide": 44.0, "narrow": 28.0, "paper": 44.0}[shape]
    for option, diamond in zip(seasons, diamonds, strict=False):
        at = float(diamond.attrib["d"].split()[0][1:]) + 5 - left
        further = float(option.planned_gross.typical / option.gross.typical)
        assert any(disc - left == pytest.approx(at * further, abs=0.3) for disc in discs)
    assert picture_notes(comparison)


def test_without_an_aim_nothing_is_dotted() -> None:
    options = [
        option.model_copy(update={"chance": option.chance.model_copy(update={"target": None})})
        for option in sample_comparison().options
    ]
    assert "stroke-dasharray" not in money_against_chance(comparison_with(*options))


def test_a_name_from_outside_can_not_break_out_of_the_drawing() -> None:
    option = sample_comparison().options[0].model_copy(update={"name": '<b>"&'})
    assert "&lt;b&gt;" in money_against_chance(comparison_with(option))


@every_shape
def test_of_rings_that_lie_close_together_one_is_numbered(shape: ShapeName) -> None:
    """Nine steps within 40 dollars and a hundredth of each other: nine numbers could not be told apart."""
    option = sample_comparison().options[0]
    steps = tuple(
        option.ladder[0].model_copy(
            update={
                "number": number,
                "gross": option.gross.typical - 900 + 5 * number,
                "chance": option.chance.value - 0.1 + 0.001 * number,
                "is_option": False,
            }
        )
        for number in range(1, 10)
    )
    close = comparison_with(option.model_copy(update={"ladder": steps}))
    written = [words for words, _ in texts(parsed(close, shape))]
    assert [words for words in written if words in "123456789"] == ["1"]
