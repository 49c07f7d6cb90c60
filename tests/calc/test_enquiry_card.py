"""What is said on the phone about one comparison."""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from quotes.calc.dates.slots import Promise, lay_out
from quotes.calc.intake.enquiry_card import Diary, Said, slot_lead, what_is_said
from quotes.calc.money.band import SpokenRule
from quotes.calc.shop import Queue
from tests.sample_sheet import ON, sample_comparison

A_DAY = Decimal("6.5")
RULE = SpokenRule()
COMPARISON = sample_comparison()
REFRESH = COMPARISON.option("refresh")


def diary(*promises: Promise, in_hand: str = "0") -> Diary:
    bench = lay_out(ON, A_DAY, frozenset(), promises)
    return Diary(bench, Queue(A_DAY, Decimal(in_hand), frozenset()), promises)


def said(*promises: Promise, needed_on: date | None = None, budget: str | None = None) -> Said:
    asked = Decimal(budget) if budget else None
    return what_is_said(COMPARISON, diary(*promises), RULE, needed_on=needed_on, budget=asked)


def test_every_option_has_its_band_its_hours_and_its_week() -> None:
    options = said().options
    assert [option.tier for option in options] == ["refresh", "mild", "full"]
    assert all(option.low < option.gross.typical < option.high for option in options)
    assert all(option.slot is not None for option in options)


def test_an_engine_is_not_ready_before_its_parts_are() -> None:
    slot = said().options[0].slot
    assert slot is not None
    assert slot.ready_on >= REFRESH.ready.p80


def test_the_queue_of_the_day_is_not_counted_twice() -> None:
    empty, waiting = slot_lead(REFRESH, diary()), slot_lead(REFRESH, diary(in_hand="65"))
    assert empty - waiting == 10


@pytest.mark.parametrize(
    ("budget", "word"), [("1", "above"), ("1000000", "within"), (str(REFRESH.gross.typical), "may go above")]
)
def test_a_budget_is_held_against_the_spoken_band(budget: str, word: str) -> None:
    assert said(budget=budget).options[0].against_budget == word


def test_without_a_day_nothing_is_late() -> None:
    told = said()
    assert [option.slot.in_time for option in told.options if option.slot] == [None] * 3
    assert told.sentences == ()


def test_a_day_that_all_options_meet_needs_no_words() -> None:
    assert said(needed_on=ON + timedelta(days=500)).sentences == ()


def test_full_weeks_and_rivals_for_the_same_day_are_said() -> None:
    needed_on = ON + timedelta(days=60)
    ten = tuple(Promise(Decimal(60), None, needed_on) for _ in range(10))
    first, second, third = said(*ten, needed_on=needed_on).sentences
    assert first.startswith("The weeks before")
    assert second == "10 other engines are promised for that same day."
    assert third.startswith("Not ready by then: Refresh")


def test_one_rival_is_one_engine() -> None:
    needed_on = ON + timedelta(days=60)
    assert (
        "1 other engine is promised for that same day."
        in said(Promise(Decimal(1), None, needed_on), needed_on=needed_on).sentences
    )


def test_a_bench_promised_to_the_horizon_names_no_week() -> None:
    told = said(Promise(Decimal(10_000)))
    assert [option.slot for option in told.options] == [None] * 3
    assert told.sentences == ("The bench is promised as far as we plan: no week can be named yet.",)


def test_a_price_after_strip_down_is_subject_to_nothing_and_still_a_band() -> None:
    firm = what_is_said(COMPARISON.model_copy(update={"firm": True}), diary(), RULE)
    assert firm.subject_to == ""
    assert firm.options[0].low < firm.options[0].high
