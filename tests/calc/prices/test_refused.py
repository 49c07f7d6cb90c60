"""Rows of a list that contradict themselves or another row are refused with line, column and reason."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.price_list.listed import Listed
from catalogue.calc.price_list.refused import sound_rows, under_heads
from tests.calc.prices.rows import row


def refused(*rows: Listed) -> list[tuple[int, str, str]]:
    return [(one.line, one.column, one.value) for one in sound_rows(rows)[1]]


def test_a_list_price_below_the_cost() -> None:
    assert refused(row("A-1", "10", list_price=Decimal("9.99"))) == [(2, "list_price", "9.99")]
    assert refused(row("A-1", "10", list_price=Decimal("10"))) == []


def test_the_column_is_called_as_in_the_file() -> None:
    (fault,) = sound_rows([row("A-1", "0.085", list_price=Decimal("0.084"))])[1]
    assert [one.column for heads in ({"list_price": "RRP"}, {}) for one in under_heads([fault], heads)] == [
        "RRP",
        "list price",
    ]
    assert (fault.value, fault.reason) == ("0.084", "is below the cost of 0.085")


def test_a_number_that_stands_twice_with_other_terms() -> None:
    assert refused(row("A-1", "10"), row("a1", "11", line=7)) == [(7, "number", "a1")]
    assert refused(row("A-1", "10"), row("a1", "10", line=7)) == []


def test_numbers_that_supersede_one_another_in_a_circle() -> None:
    rows = [row("A", superseded_by="B"), row("B", line=3, superseded_by="A"), row("C", line=4)]
    assert refused(*rows) == [(2, "superseded_by", "B"), (3, "superseded_by", "A")]
    assert [key for key, _ in sound_rows(rows)[0]] == ["C"]


def test_what_no_part_can_have() -> None:
    rows = [row("A", "10000001"), row("B", line=3, pack=2_000_000), row("C" * 101, line=4)]
    assert refused(*rows) == [(2, "cost", "10000001"), (3, "pack", "2000000"), (4, "number", "C" * 101)]
