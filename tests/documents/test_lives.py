"""Life used and left as bars: every number in the table is drawn, past life shows, nothing overlaps."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.sheet.life_values import Fate, LifeBar
from quotes.documents.drawing.tracks import FormName
from quotes.documents.figures import Figures, Way, ways_of
from quotes.documents.lives import DRAWN, life_picture, life_used
from tests.documents.drawn import SVG, assert_sound, parsed, words_of
from tests.documents.worked_sheet import worked_four, worked_single
from tests.sample_sheet import sample_comparison

SHAPES: tuple[FormName, ...] = ("wide", "narrow")
every_shape = pytest.mark.parametrize("shape", SHAPES)
LONG = "selector shaft, ratchet, detent arm, roller and return spring"


def bar(code: str, at_start: float, at_end: float, fate: Fate = "left", **more: object) -> LifeBar:
    name = str(more.pop("name", code))
    return LifeBar.model_validate(
        {"component": code, "name": name, "at_start": at_start, "at_end": at_end, "fate": fate, **more}
    )


def way(*bars: LifeBar, name: str = "Leave it") -> Way:
    return sample_comparison().leave_it.model_copy(update={"name": name, "lives": bars})


def drawn(*ways: Way) -> Figures:
    found = life_used(ways)
    assert found is not None
    return found


def assert_the_table_is_drawn(figures: Figures) -> None:
    """Name and words of every row stand on the drawing in both shapes, and no other number does."""
    for svg in (figures.wide, figures.narrow):
        assert_sound(svg)
        written = words_of(svg)
        for row in figures.rows:
            for cell in (*row.name.split(), *row.cells):
                assert cell.removesuffix(", brought back") in written, cell
        told = " ".join(" ".join((row.name, *row.cells)) for row in figures.rows) + " 100 100%"
        assert set(re.findall(r"\d+", written)) <= set(re.findall(r"\d+", told + " ".join(figures.heads)))


@pytest.mark.parametrize("sheet", [worked_four, worked_single])
def test_the_table_of_a_real_sheet_is_drawn_number_by_number(sheet: object) -> None:
    comparison = sheet().comparison  # type: ignore[operator]
    figures = life_used(ways_of(comparison))
    assert figures is not None
    assert_the_table_is_drawn(figures)
    assert len(figures.rows) == DRAWN
    assert len(figures.rows) + len(figures.rest) == len(comparison.leave_it.lives)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
@pytest.mark.parametrize("parts", [1, 9, 40])
def test_one_part_or_many_in_one_way_or_four(count: int, parts: int) -> None:
    bars = [bar(f"part {chr(97 + n % 26)}{n // 26}", n / 20, n / 10) for n in range(parts)]
    figures = drawn(*(way(*bars, name=f"Way {chr(65 + n)}") for n in range(count)))
    assert_the_table_is_drawn(figures)


def test_names_of_sixty_letters_wrap_and_no_word_is_lost() -> None:
    assert_the_table_is_drawn(drawn(*(way(bar("a", 0.4, 0.8, name=LONG)) for _ in range(4))))


def test_a_name_without_a_gap_is_broken_and_keeps_its_letters() -> None:
    figures = drawn(way(bar("b", 0.2, 1.2, name="x" * 60)))
    for svg in (figures.wide, figures.narrow):
        assert_sound(svg)
        assert words_of(svg).lower().count("x") == 60


SHARES = st.floats(0, 30)
BARS = st.lists(
    st.tuples(SHARES, SHARES, st.sampled_from(["left", "renewed", "reconditioned"]), st.booleans()),
    min_size=1,
    max_size=12,
)


@settings(max_examples=25, deadline=None)
@given(st.lists(BARS, min_size=1, max_size=4))
def test_any_shares_are_drawn_without_one_word_on_another(
    ways: list[list[tuple[float, float, Fate, bool]]],
) -> None:
    figures = drawn(
        *(
            way(
                *(
                    bar(
                        f"part {chr(97 + n)}",
                        0.0 if fate == "renewed" else start,
                        start + more,
                        fate,
                        known=known,
                    )
                    for n, (start, more, fate, known) in enumerate(bars)
                )
            )
            for bars in ways
        )
    )
    assert_the_table_is_drawn(figures)


@every_shape
def test_what_is_past_its_life_stands_taller_and_bold(shape: FormName) -> None:
    within = parsed(life_picture((way(bar("ring", 0.5, 0.9)),), shape))
    past = parsed(life_picture((way(bar("ring", 1.1, 1.2)),), shape))

    def tallest(root: object) -> float:
        key = [float(each.attrib["height"]) for each in root.iter(f"{SVG}rect")][:-4]  # type: ignore[attr-defined]
        return max(key)

    assert tallest(within) < tallest(past)
    bold = {each.text for each in past.iter(f"{SVG}text") if each.attrib["font-weight"] == "700"}
    assert "110 to 120" in bold


def test_a_bar_is_as_long_as_its_share_and_the_mark_stands_at_the_planned_life() -> None:
    root = parsed(life_picture((way(bar("ring", 0.5, 0.5), bar("pin", 0.25, 0.25)),), "wide"))
    solid = [each for each in root.iter(f"{SVG}rect") if each.attrib["fill"] == "#17191c"][:2]
    ring, pin = (float(each.attrib["width"]) for each in solid)
    assert ring == pytest.approx(2 * pin, abs=0.1)
    left = float(solid[0].attrib["x"])
    marks = {each.attrib["x1"] for each in root.iter(f"{SVG}line") if each.attrib["x1"] == each.attrib["x2"]}
    assert f"{left + 2 * ring:.1f}".removesuffix(".0") in marks


def test_a_bar_too_long_for_the_scale_is_cut_and_its_number_kept() -> None:
    figures = drawn(way(bar("ring", 0.5, 6.0)))
    assert figures.rows[0].cells == ("50 to 600",)
    assert "l7 6" in figures.wide
    assert "l7 6" not in drawn(way(bar("ring", 0.5, 2.0))).wide


def test_the_part_that_runs_out_first_in_any_way_stands_first() -> None:
    first = way(bar("ring", 0.9, 1.0), bar("pin", 0.1, 0.2))
    second = way(bar("ring", 0.0, 0.1, "renewed"), bar("pin", 0.1, 1.9), name="Full power")
    assert [row.name for row in drawn(first, second).rows] == ["Pin", "Ring"]


def test_how_an_age_is_known_is_said_by_the_part() -> None:
    figures = drawn(way(bar("ring", 0.5, 0.6, measured=True), bar("pin", 0.5, 0.5, known=False)))
    assert {row.name: row.note for row in figures.rows} == {"Ring": "measured", "Pin": "age not known"}
    assert_the_table_is_drawn(figures)


def test_an_engine_without_a_history_says_it_once() -> None:
    figures = drawn(way(bar("ring", 0.5, 0.6, known=False), bar("pin", 0.5, 0.5, known=False)))
    assert [row.note for row in figures.rows] == ["", ""]
    assert figures.notes == (
        "Its history is not known: every part is counted half used until it is measured.",
    )


def test_bars_of_an_option_that_is_opened_on_the_way_say_where_they_end() -> None:
    single = worked_single().comparison
    assert any("first opening" in note for note in drawn(*ways_of(single)).notes)
    assert drawn(*ways_of(single)[:1]).notes == ()


def test_what_is_brought_back_says_so_in_the_table_and_by_a_mark() -> None:
    figures = drawn(way(bar("seat", 0.2, 0.4, "reconditioned")))
    assert figures.rows[0].cells == ("20 to 40, brought back",)
    assert "brought back by machine work" in words_of(figures.narrow)


def test_a_sheet_from_before_this_was_kept_has_no_such_picture() -> None:
    assert life_used(ways_of(sample_comparison())) is None


@every_shape
def test_the_same_bars_give_the_same_bytes(shape: FormName) -> None:
    ways = ways_of(worked_four().comparison)
    assert life_picture(ways, shape) == life_picture(ways, shape)
