"""What stops engines, as bars: whole engines in 100, every number in the table and on the drawing."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.sheet.chance_values import HazardShare
from quotes.documents.causes import AT_LEAST, DRAWN, REST, causes_picture, where_it_goes
from quotes.documents.drawing.tracks import FormName
from quotes.documents.figures import Figures, Way, ways_of
from tests.documents.drawn import SVG, assert_sound, parsed, words_of
from tests.documents.worked_sheet import worked_four, worked_single
from tests.sample_sheet import sample_comparison

SHAPES: tuple[FormName, ...] = ("wide", "narrow")
HANDS = "Our own hands: faults in assembly"


def share(name: str, in_100: float, state: str = "left") -> HazardShare:
    return HazardShare(name=name, state=state, stops_in_100=in_100)


def way(*shares: HazardShare, name: str = "Leave it", chance: float = 0.9) -> Way:
    leave = sample_comparison().leave_it
    value = leave.chance.model_copy(update={"value": chance})
    return leave.model_copy(update={"name": name, "where_the_chance_goes": shares, "chance": value})


def assert_the_table_is_drawn(figures: Figures) -> None:
    for svg in (figures.wide, figures.narrow):
        assert_sound(svg)
        written = words_of(svg)
        for row in figures.rows:
            for cell in (*row.name.split(), *(each.partition(",")[0] for each in row.cells)):
                assert cell in written, cell


@pytest.mark.parametrize("sheet", [worked_four, worked_single])
def test_the_table_of_a_real_sheet_is_drawn_number_by_number(sheet: object) -> None:
    figures = where_it_goes(ways_of(sheet().comparison))  # type: ignore[operator]
    assert_the_table_is_drawn(figures)
    assert AT_LEAST < len(figures.rows) <= DRAWN + 1
    assert figures.rows[-1].name == REST


def test_a_part_that_stops_no_engine_in_100_stands_with_all_else_but_our_own_hands_never_do() -> None:
    large = [share(f"part {chr(97 + n)}", 5.0) for n in range(AT_LEAST)]
    figures = where_it_goes((way(*large, share("pin", 0.3), share(HANDS, 0.2, "22 operations")),))
    assert [row.name for row in figures.rows] == ["Part a", "Part b", "Part c", HANDS, REST]


def test_an_older_sheet_is_drawn_as_well() -> None:
    assert_the_table_is_drawn(where_it_goes(ways_of(sample_comparison())))


def test_no_number_has_a_third_figure() -> None:
    figures = where_it_goes(ways_of(worked_four().comparison))
    cells = [cell for row in figures.rows for cell in row.cells]
    assert not [cell for cell in cells if re.search(r"\d[.,]\d|\d{3}", cell)]
    assert "under 1, new" in cells


def test_what_is_not_drawn_stands_together_so_that_nothing_is_lost() -> None:
    shares = [share(f"part {chr(97 + n)}", 12.0 - n) for n in range(DRAWN + 2)] + [share(REST, 4.0, "")]
    figures = where_it_goes((way(*shares),))
    assert figures.rows[-1].cells == ("7",)  # 2 + 1 + 4
    assert len(figures.rows) == DRAWN + 1


def test_a_cause_outside_the_largest_of_a_way_is_under_one_or_in_the_rest() -> None:
    one = way(share("ring", 5.0), share(REST, 0.0, ""))
    small = way(share("pin", 0.3), share(REST, 0.0, ""), name="Refresh")
    large = way(share("pin", 3.0), share(REST, 9.0, ""), name="Full power")
    figures = where_it_goes((one, small, large))
    assert {row.name: row.cells for row in figures.rows}["Ring"] == ("5", "under 1", "in the rest")


def test_our_own_hands_do_nothing_to_an_engine_that_is_left() -> None:
    built = way(share(HANDS, 1.2, "22 operations"), share(REST, 0.0, ""), name="Refresh")
    figures = where_it_goes((way(share("ring", 5.0), share(REST, 0.0, "")), built))
    assert {row.name: row.cells for row in figures.rows}[HANDS] == ("none", "1")


def test_bars_are_told_apart_by_how_they_are_filled() -> None:
    left = causes_picture((way(share("ring", 5.0)),), "wide")
    new = causes_picture((way(share("ring", 5.0, "renewed")),), "wide")
    hands = causes_picture((way(share(HANDS, 5.0, "22 operations")),), "wide")
    fills = [
        next(each.attrib["fill"] for each in parsed(svg).iter(f"{SVG}rect")) for svg in (left, new, hands)
    ]
    assert fills == ["#17191c", "#fdfdfa", "#fdfdfa"]
    assert hands.count("<path") > new.count("<path")


def test_a_bar_is_as_long_as_its_share() -> None:
    root = parsed(causes_picture((way(share("ring", 6.0), share("pin", 2.0)),), "wide"))
    ring, pin = (float(each.attrib["width"]) for each in list(root.iter(f"{SVG}rect"))[:2])
    assert ring == pytest.approx(3 * pin, abs=0.15)


SHARES = st.dictionaries(
    st.sampled_from([f"part {chr(97 + n)} of many words" for n in range(14)]),
    st.tuples(st.floats(0, 99), st.sampled_from(["left", "renewed", "brought back"])),
    max_size=12,
)


@settings(max_examples=25, deadline=None)
@given(st.lists(SHARES, min_size=1, max_size=4))
def test_any_shares_are_drawn_without_one_word_on_another(ways: list[dict[str, tuple[float, str]]]) -> None:
    made = [way(*(share(name, *each) for name, each in shares.items()), chance=0.5) for shares in ways]
    assert_the_table_is_drawn(where_it_goes(made))


@pytest.mark.parametrize("shape", SHAPES)
def test_the_same_shares_give_the_same_bytes(shape: FormName) -> None:
    ways = ways_of(worked_four().comparison)
    assert causes_picture(ways, shape) == causes_picture(ways, shape)


def test_page_and_paper_are_told_the_same_drawing() -> None:
    from quotes.documents.customer_sheet import customer_sheet
    from quotes.documents.paper import quote_context

    page, paper = customer_sheet(worked_four()), quote_context(worked_four())
    assert page["causes"] == paper["causes"]
    assert page["lives"] == paper["lives"]
