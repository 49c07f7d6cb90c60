"""The glance, the ready dates and what the figures rest on."""

from __future__ import annotations

from quotes.documents.glance import attention, glance, ready_rows, rests_on
from tests.documents.samples import comparison_with, one_option
from tests.sample_sheet import sample_comparison, sample_sheet


def plain(words: str) -> str:
    return words.replace("\N{NO-BREAK SPACE}", " ")


def test_leave_it_stands_first_and_none_is_left_out() -> None:
    names = [way.name for way in glance(sample_comparison())]
    assert names == ["Leave it", "Refresh", "Mild build", "Full power"]


def test_a_way_says_price_chance_power_life_and_date() -> None:
    mild = glance(sample_comparison())[2]
    assert (mild.price, mild.finishes, mild.likely) == ("$7,524", "About 19 in 20", "likely 18 to 19")
    assert [(fact.asked, plain(fact.words), plain(fact.beside)) for fact in mild.facts] == [
        ("Power", "+7 %", "4 to 10 %"),
        ("Good for", "1,850 miles", "of 2,000 miles"),
        ("Ready by", "5 Mar 2027", "8 in 10"),
    ]
    assert not mild.lines


def test_the_same_is_answered_of_every_way_in_the_same_order() -> None:
    for way in glance(sample_comparison()):
        assert [fact.asked for fact in way.facts] == ["Power", "Good for", "Ready by"]


def test_a_way_that_lasts_the_season_says_so() -> None:
    option = sample_comparison().options[0]
    lasts = option.model_copy(update={"good_for": option.good_for.model_copy(update={"amount": 2000.0})})
    assert glance(comparison_with(lasts))[1].facts[1].beside == "the whole season"


def test_the_price_is_a_band_until_the_engine_is_stripped() -> None:
    assert glance(sample_comparison())[1].between == "$4,412 to $6,117"
    assert glance(sample_comparison(firm=True))[1].between == ""


def test_an_aim_that_is_not_reached_is_said() -> None:
    assert glance(sample_comparison())[3].lines[-1] == "The aim of 19 in 20 is not reached."


def test_an_aim_that_is_reached_goes_without_saying() -> None:
    assert not any("aim" in line for line in glance(sample_comparison())[1].lines)


def test_an_aim_that_holds_up_to_an_opening_only_is_said_so() -> None:
    option = sample_comparison().options[0]
    chance = option.chance.model_copy(update={"to_first_opening": 0.95})
    opened = comparison_with(option.model_copy(update={"chance": chance}))
    assert glance(opened)[1].lines[-1] == "The aim of 19 in 20 holds up to its opening."


def test_a_part_that_is_due_already_is_said_so() -> None:
    leave = sample_comparison().leave_it
    due = leave.model_copy(update={"good_for": leave.good_for.model_copy(update={"amount": 0.0})})
    told = glance(sample_comparison(leave_it=due))[0].facts[1]
    assert (told.words, told.beside) == ("due now", "a part of it")


def test_the_promise_is_the_eight_in_ten_date() -> None:
    (promise,) = [row for row in ready_rows(sample_comparison()) if row.total]
    assert promise.words == "We promise, 8 in 10"
    assert [plain(cell) for cell in promise.cells] == ["21 Jan 2027", "5 Mar 2027", "15 Mar 2027"]


def test_the_figures_rest_on_history_and_assumptions() -> None:
    told = rests_on(sample_sheet())
    assert told[0].startswith("4,100 miles of sprint racing so far")
    assert told[-1].startswith("Standard rev limit")


def test_what_must_be_said_before_it_is_sold_stands_under_its_name() -> None:
    said = dict(attention(sample_comparison()))
    assert "Club open does not allow race cams." in said["full power"]
    assert "refresh" not in said


def test_a_single_way_still_stands_beside_leave_it() -> None:
    assert [way.tier for way in glance(one_option())] == ["", "refresh"]
    assert len(glance(comparison_with())) == 1
