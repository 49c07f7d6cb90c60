"""An option line by line: sections that add up, taxes by group, steps in words."""

from __future__ import annotations

from decimal import Decimal

from quotes.documents.itemised import if_needed, ladder, quantity, sections, sums
from tests.sample_sheet import sample_comparison

COMPARISON = sample_comparison()
REFRESH = COMPARISON.options[0]


def number(words: str) -> Decimal:
    return Decimal(words.replace(",", ""))


def test_the_sections_add_up_to_the_sum_before_tax() -> None:
    for option in COMPARISON.options:
        total = sum(number(section.net) for section in sections(option, COMPARISON))
        assert total == option.net.typical


def test_a_section_adds_up_to_its_own_sum() -> None:
    for section in sections(REFRESH, COMPARISON):
        assert sum(number(item.net) for item in section.items) == number(section.net)


def test_sections_without_lines_are_left_out() -> None:
    titles = [section.title for section in sections(REFRESH, COMPARISON)]
    assert titles == ["Strip and rebuild", "Parts", "Machine work", "Consumables"]


def test_the_taxes_stand_by_component_and_the_last_line_is_the_sum_with_tax() -> None:
    net, state, local, untaxed, gross = sums(REFRESH, COMPARISON)
    assert number(net.amount) + number(state.amount) + number(local.amount) == number(gross.amount)
    assert state.words.replace("\N{NO-BREAK SPACE}", " ") == "State 6 % on 1,495.70"
    assert untaxed.words == "No tax on 3,410.00: repair labour stated apart is not taxed"
    assert gross.final
    assert number(gross.amount) == REFRESH.gross.typical


def test_the_option_is_marked_among_its_steps() -> None:
    steps = ladder(REFRESH, COMPARISON)
    assert [step.number for step in steps if step.is_option] == [2]
    assert steps[2].more == "+1,850.00"
    assert steps[2].adds == "Connecting rod bolts, rod bearings and piston rings"


def test_the_steps_begin_with_leaving_it() -> None:
    left, first, *_ = ladder(REFRESH, COMPARISON)
    assert (left.number, left.adds, left.more) == (0, "Left as it is, with oil and filter", "")
    assert number(first.more) == number(first.gross) - number(left.gross)


def test_what_finishes_as_often_when_it_is_left_does_not_begin_with_leaving_it() -> None:
    sound = COMPARISON.leave_it.chance.model_copy(update={"value": REFRESH.ladder[0].chance})
    left = COMPARISON.leave_it.model_copy(update={"chance": sound})
    first, *_ = ladder(REFRESH, COMPARISON.model_copy(update={"leave_it": left}))
    assert (first.number, first.more) == (1, "")


def test_priced_but_not_included_lines_are_not_in_any_section() -> None:
    named = {item.description for section in sections(REFRESH, COMPARISON) for item in section.items}
    assert not named & {item.description for item in if_needed(REFRESH, COMPARISON)}


def test_a_quantity_keeps_the_decimals_it_has() -> None:
    assert [quantity(Decimal(each)) for each in ("16", "4.60", "0.125", "1E+1")] == [
        "16",
        "4.6",
        "0.125",
        "10",
    ]
