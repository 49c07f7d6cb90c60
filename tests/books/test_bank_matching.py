"""What a line of a statement is proposed to settle. No database."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.books.matching import ItemToMatch, LineToMatch, Match, alike, match_lines, names

OTTEN = ItemToMatch(1, "I-2026-0001", 10, "Marel Otten", Decimal("106.00"))
SECOND = ItemToMatch(2, "I-2026-0002", 10, "Marel Otten", Decimal("53.00"))
VENTRY = ItemToMatch(3, "I-2026-0003", 20, "Ventry Yard Racing", Decimal("300.00"))
SETTLED = ItemToMatch(4, "I-2026-0004", 20, "Ventry Yard Racing", Decimal(0))
ITEMS = [OTTEN, SECOND, VENTRY, SETTLED]


def line(amount: str, text: str = "", payer: str = "", row: int = 2) -> LineToMatch:
    return LineToMatch(row, row, Decimal(amount), payer, text)


def match(amount: str, text: str = "", payer: str = "") -> Match:
    (found,) = match_lines([line(amount, text, payer)], ITEMS)
    return found


def parts(found: Match) -> list[tuple[str, str]]:
    return [(part.number, str(part.amount)) for part in found.settles]


@pytest.mark.parametrize(
    "text",
    [
        "I-2026-0001",
        "Invoice I-2026-0001 of November",
        "i-2026-0001",
        "I20260001",
        "I 2026 0001",
        "InvoiceI-2026-0001",
        "RE I.2026/0001, thank you",
        "I-2026-0001 2026-11-25",
    ],
)
def test_the_number_and_its_sum_are_sure(text: str) -> None:
    found = match("106.00", text, payer="Somebody Else")

    assert (found.certainty, found.customer, parts(found)) == (
        "sure",
        "Marel Otten",
        [("I-2026-0001", "106.00")],
    )


@pytest.mark.parametrize("text", ["I-2026-00012", "I-2026-000", "2026-0001", "I-2026-0010", "A-2026-0001"])
def test_another_number_is_not_taken_for_it(text: str) -> None:
    assert not names("I-2026-0001", text)


def test_a_number_that_begins_with_a_figure_is_not_found_within_a_longer_one() -> None:
    assert not names("2026-0001", "12026-0001")
    assert names("2026-0001", "no. 2026 0001")


def test_less_than_the_sum_is_a_likely_part_payment() -> None:
    found = match("50.00", "I-2026-0001")

    assert (found.certainty, parts(found), found.over) == ("likely", [("I-2026-0001", "50.00")], Decimal(0))
    assert found.why == "names I-2026-0001: a part of the 106.00 that is open"


def test_more_than_the_sum_leaves_the_rest_in_credit() -> None:
    found = match("110.00", "I-2026-0001")

    assert (found.certainty, parts(found), found.over) == (
        "likely",
        [("I-2026-0001", "106.00")],
        Decimal("4.00"),
    )


def test_two_numbers_and_their_sum_are_sure() -> None:
    found = match("159.00", "I-2026-0002 and I-2026-0001")

    assert found.certainty == "sure"
    assert parts(found) == [("I-2026-0001", "106.00"), ("I-2026-0002", "53.00")]


def test_numbers_of_two_customers_are_left_to_a_person() -> None:
    found = match("406.00", "I-2026-0001 I-2026-0003")

    assert (found.certainty, found.customer_pk, found.settles) == ("none", None, ())


def test_a_settled_invoice_that_is_paid_again_is_likely_and_settles_nothing() -> None:
    found = match("300.00", "I-2026-0004")

    assert (found.certainty, found.customer, found.settles, found.over) == (
        "likely",
        "Ventry Yard Racing",
        (),
        Decimal("300.00"),
    )


def test_the_sum_with_a_name_that_is_alike_is_likely() -> None:
    found = match("53.00", "thank you", payer="OTTEN, MAREL")

    assert (found.certainty, parts(found)) == ("likely", [("I-2026-0002", "53.00")])


def test_the_sum_under_another_name_is_none() -> None:
    found = match("53.00", "thank you", payer="Ines Karrow")

    assert (found.certainty, found.why) == (
        "none",
        "names no document; the sum is open, but under another name",
    )


def test_the_name_with_another_sum_is_none() -> None:
    assert match("54.00", payer="Marel Otten").certainty == "none"


def test_a_sum_that_two_items_have_is_left_to_a_person() -> None:
    twice = [OTTEN, ItemToMatch(5, "I-2026-0005", 10, "Marel Otten", Decimal("106.00"))]

    (found,) = match_lines([line("106.00", payer="Marel Otten")], twice)

    assert (found.certainty, found.customer, found.settles) == ("none", "Marel Otten", ())


def test_money_that_went_out_is_shown_and_not_matched() -> None:
    assert match("-106.00", "I-2026-0001").why == "money that went out"


def test_what_one_line_settles_is_not_settled_by_the_next() -> None:
    first, second = match_lines(
        [line("106.00", "I-2026-0001", row=2), line("106.00", "I-2026-0001", row=3)], ITEMS
    )

    assert (first.certainty, second.certainty) == ("sure", "likely")
    assert (parts(second), second.over) == ([], Decimal("106.00"))


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("Marel Otten", "OTTEN MAREL", True),
        ("Märel Otten", "Marel Otten", True),
        ("M. Otten", "Marel Otten", True),
        ("Marel Ottn", "Marel Otten", True),
        ("Marel Voss", "Marel Otten", False),
        ("", "Marel Otten", False),
        ("of", "of the", False),
    ],
)
def test_names_are_alike(one: str, other: str, expected: bool) -> None:
    assert alike(one, other) is expected
