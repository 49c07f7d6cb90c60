"""The comparison sheet: rows are the customer's questions, the first column is leave it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from quotes.calc.sheet.values import Comparison
from quotes.documents.questions import Question, columns, questions
from tests.documents.samples import comparison_with, one_option
from tests.sample_sheet import sample_comparison

COMPARISON = sample_comparison()


def row(code: str, comparison: Comparison = COMPARISON) -> Question:
    (found,) = [each for each in questions(comparison, class_name="Club open") if each.code == code]
    return found


def words(code: str, comparison: Comparison = COMPARISON) -> list[str]:
    return [cell.words.replace("\N{NO-BREAK SPACE}", " ") for cell in row(code, comparison).cells]


def notes(code: str) -> list[str]:
    return [cell.note.replace("\N{NO-BREAK SPACE}", " ") for cell in row(code).cells]


def test_the_first_column_is_leave_it() -> None:
    assert columns(COMPARISON) == ("Leave it", "Refresh", "Mild build", "Full power")


def test_the_price_row_carries_the_stored_sums_with_tax() -> None:
    stored = [COMPARISON.leave_it.gross, *(option.gross.typical for option in COMPARISON.options)]
    assert [cell.value for cell in row("gross").cells] == stored


def test_the_price_is_a_band_until_the_strip_down_and_firm_after() -> None:
    assert words("between")[1] == "4,412.45 to 6,117.24"
    firm = {each.code for each in questions(sample_comparison(firm=True))}
    assert not {"between", "gross_low", "gross_high"} & firm


def test_the_chance_stands_per_season_and_per_meeting() -> None:
    assert words("chance") == ["about 16 in 20", "about 19 in 20", "about 19 in 20", "about 16 in 20"]
    assert (words("meeting")[0], notes("meeting")[0]) == ("96 %", "the last 92 %")


def test_locking_the_wheel_stands_beside_its_ceiling() -> None:
    assert (words("locks")[0], notes("locks")[0]) == ("about 8 in 100", "past our ceiling of 5 %")
    assert (words("locks")[1], notes("locks")[1]) == ("about 2 in 100", "within our ceiling of 5 %")


def test_each_column_says_how_far_it_is_good_for() -> None:
    assert words("good_for") == ["400 miles", "2,030 miles", "1,850 miles", "1,340 miles"]


def test_what_falls_due_is_set_against_the_season_of_this_customer() -> None:
    assert notes("first_due") == [
        "400 miles, within your season",
        "2,030 miles, 1.0 of your seasons",
        "1,850 miles, within your season",
        "1,340 miles, within your season",
    ]


def test_what_a_season_costs_says_how_long_a_season_that_is() -> None:
    assert notes("season_cost") == [""] * 4
    mild = COMPARISON.options[1].model_copy(update={"season_use": 2000.0})
    (cell,) = row("season_cost", comparison_with(mild)).cells[1:]
    assert cell.note.replace("\N{NO-BREAK SPACE}", " ") == "of 2,000 miles, as is usual"


def test_an_opening_inside_the_season_is_told() -> None:
    assert words("opened")[1:] == ["no", "no", "yes, at 1,340 miles"]


def test_an_option_that_breaks_the_class_says_by_what() -> None:
    assert (words("class")[3], notes("class")[3]) == ("no", "its cams")


def test_a_question_that_no_option_can_answer_is_left_out() -> None:
    assert "loss" not in {each.code for each in questions(COMPARISON)}
    lossy = one_option().options[0].model_copy(update={"expected_loss": Decimal("5300.00")})
    assert words("loss", comparison_with(lossy)) == ["–", "5,300.00"]  # noqa: RUF001


def test_for_the_workbook_every_number_has_a_cell_of_its_own() -> None:
    rows = {each.code: each for each in questions(COMPARISON, for_workbook=True)}
    assert rows["chance_low"].cells[1].value == COMPARISON.options[0].chance.low
    assert rows["gross_high"].cells[1].value == COMPARISON.options[0].gross.high
    assert rows["ready"].cells[1].value == date(2027, 1, 21)
    assert not {"between", "likely"} & rows.keys()


def test_one_option_makes_two_columns() -> None:
    assert all(len(each.cells) == 2 for each in questions(one_option()))


@pytest.mark.parametrize(
    ("first", "last", "said", "note"),
    [
        (
            (0.982, 0.976, 0.989),
            (0.97, 0.955, 0.984),
            "98 %",
            "likely 98 to 99 %; the last 97 %, likely 96 to 98 %",
        ),
        ((0.997, 0.994, 0.999), (0.993, 0.99, 0.994), "over 99 %", "the last 99 %"),
        ((0.999, 0.998, 0.999), (0.999, 0.998, 0.999), "over 99 %", ""),
    ],
)
def test_a_meeting_is_told_in_whole_per_cent_and_its_band_where_that_says_more(
    first: tuple[float, ...], last: tuple[float, ...], said: str, note: str
) -> None:
    ends = ("", "_low", "_high")
    meetings = {f"first_event{end}": share for end, share in zip(ends, first, strict=True)}
    meetings |= {f"last_event{end}": share for end, share in zip(ends, last, strict=True)}
    option = COMPARISON.options[0]
    told = option.model_copy(update={"chance": option.chance.model_copy(update=meetings)})
    cell = row("meeting", COMPARISON.model_copy(update={"options": (told,)})).cells[1]
    assert [part.replace("\N{NO-BREAK SPACE}", " ") for part in (cell.words, cell.note)] == [said, note]
