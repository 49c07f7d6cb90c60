"""What is wrong with a statement: every fault with its place, and a file that is cut off refused whole."""

from __future__ import annotations

import pytest

from quotes.calc.books.bank_lines import ColumnsChosen, Reading
from quotes.imports.faults import FileFault
from tests.books.test_bank_reading import PLAIN, read


def refused(content: str | bytes) -> str:
    """What is said of a file that can't be read at all."""
    with pytest.raises(FileFault) as told:
        read(content)
    return str(told.value)


def test_a_first_payment_with_a_bad_day_is_not_taken_for_the_heads() -> None:
    found = read("Date,Reference,Amount\n2026-99-24,A,1.00\n2026-11-25,B,2.00\n")

    assert found.reading.head_line == 1
    assert [fault.line for fault in found.faults] == [2]


@pytest.mark.parametrize(
    ("columns", "said"),
    [
        (ColumnsChosen(date=0), "Choose the column of the sum, or the one of money that came in."),
        (
            ColumnsChosen(date=0, amount=3, money_in=2),
            "Choose one column for the sum, or one for each way, not both.",
        ),
        (ColumnsChosen(date=0, amount=0), "One column can't be two things: choose each once."),
        (ColumnsChosen(date=0, amount=9), "The file has 4 columns: choose among those."),
    ],
)
def test_a_choice_of_columns_that_makes_no_sense_is_said(columns: ColumnsChosen, said: str) -> None:
    assert read(PLAIN, chosen=Reading(columns=columns)).missing == (said,)


@pytest.mark.parametrize(
    ("cells", "column", "value", "reason"),
    [
        ("2026-02-30,X,A,1.00", "Date", "2026-02-30", "is no day"),
        (",X,A,1.00", "Date", "", "is no day"),
        ("1926-11-24,X,A,1.00", "Date", "1926-11-24", "lies too far back or ahead"),
        ("2027-11-24,X,A,1.00", "Date", "2027-11-24", "lies too far back or ahead"),
        ("2026-11-24,X,A,abc", "Amount", "abc", "is no sum"),
        ("2026-11-24,X,A,", "Amount", "", "is blank"),
        ("2026-11-24,X,A,1.005", "Amount", "1.005", "is no sum"),
        ("2026-11-24,X,A,99999999.00", "Amount", "99999999.00", "is no sum"),
        ("2026-11-24,X,A", "line", "3", "columns are there"),
        ("2026-11-24,X,A,1.00,9", "no heading", "9", "stands under no heading"),
    ],
)
def test_every_fault_is_said_with_line_column_and_value(
    cells: str, column: str, value: str, reason: str
) -> None:
    found = read(f"{PLAIN}{cells}\n2026-11-25,X,B,1.00\n")

    (fault,) = found.faults
    assert (fault.line, fault.column, fault.value, fault.reason) == (4, column, value, reason)
    assert fault.allowed
    assert not found.sound


@pytest.mark.parametrize(
    ("end", "how"),
    [
        ("2026-11-25,Otten", "line 4 is its last, and it has 2 of 4 columns"),
        (
            '2026-11-25,Otten,"I-2026',
            "line 4 is its last, and it opens a quotation mark that is never closed",
        ),
    ],
)
def test_a_file_cut_off_in_the_middle_is_refused_whole(end: str, how: str) -> None:
    assert how in refused(PLAIN + end)


@pytest.mark.parametrize("charset", ["utf-8", "utf-16"])
def test_a_file_cut_off_within_a_letter_is_refused_whole(charset: str) -> None:
    whole = f"{PLAIN}2026-11-25,Voss,I-2026-0002,5.00,ä".encode(charset)

    assert "line 4 is its last, and it ends in the middle of a letter" in refused(whole[:-1])


def test_a_last_line_without_an_end_is_pointed_out() -> None:
    assert read(PLAIN.rstrip()).cautions == (
        "Line 3 ends the file without a line end: look whether it is whole.",
    )


@pytest.mark.parametrize("begins", [b"PK\x03\x04", b"%PDF-1.7", b"\xd0\xcf\x11\xe0"])
def test_what_is_no_text_is_refused_with_what_is_allowed(begins: bytes) -> None:
    assert "Allowed is a CSV file" in refused(begins + b"rest")


def test_a_file_that_is_too_large_says_so() -> None:
    assert "Allowed are at most 2,000,000" in refused(PLAIN + "x" * 2_000_000)
    assert "Allowed are 5,000 lines" in refused(PLAIN + "2026-11-24,X,A,1.00\n" * 5_001)
