"""A bank's statement of any making: lines, or every fault with its place. No database."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from quotes.calc.books.bank_lines import ColumnsChosen, Reading
from quotes.imports.bank.charset import CHARSETS
from quotes.imports.bank.read import Statement, read_statement

ON = date(2026, 11, 25)
PLAIN = "Date,Payer,Reference,Amount\n2026-11-23,Märel Otten,I-2026-0001,106.00\n2026-11-24,Bank,Fee,-2.50\n"
GERMAN = (
    "Konto;XX12\n"
    "Zeitraum;01.11.2026 - 25.11.2026\n"
    "\n"
    "Buchungstag;Auftraggeber;Verwendungszweck;Betrag;Saldo\n"
    '24.11.2026;Märel Otten;"Rechnung\nI 2026 0001";1.106,00;5.000,00\n'
    "25.11.2026;Bank;Entgelt;-2,50;4.997,50\n"
)
BOTH_WAYS = (
    "Date|Details|Paid out|Paid in\n"
    "11/23/2026|I-2026-0001||106.00\n"
    "11/24/2026|Fee|2.50|\n"
    "11/25/2026|Refund|0.00|7.00\n"
)


def read(text: str | bytes, charset: str = "utf-8", chosen: Reading | None = None) -> Statement:
    content = text.encode(charset) if isinstance(text, str) else text
    return read_statement(content, chosen, on=ON, decimals=2)


def rows(found: Statement) -> list[tuple[int, date, str, str, str]]:
    return [(one.row, one.on, str(one.amount), one.payer, one.text) for one in found.lines]


@pytest.mark.parametrize(
    "charset",
    ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "iso-8859-1"],
)
@pytest.mark.parametrize("text", [PLAIN, GERMAN, BOTH_WAYS])
def test_every_character_set_gives_the_same_lines(text: str, charset: str) -> None:
    assert rows(read(text, charset)) == rows(read(text))
    assert read(text, charset).sound


@pytest.mark.parametrize("charset", CHARSETS)
def test_a_character_set_can_be_chosen(charset: str) -> None:
    letter = "\N{CYRILLIC SMALL LETTER BE}" if charset == "cp1251" else "é"
    text = PLAIN.replace("ä", letter)

    found = read(text, charset, Reading(charset=charset))

    assert (found.reading.charset, found.lines[0].payer) == (charset, f"M{letter}rel Otten")


def test_lines_before_the_heads_are_skipped_and_a_text_may_run_over_lines() -> None:
    found = read(GERMAN)

    assert (found.skipped, found.reading.head_line) == (2, 4)
    assert rows(found) == [
        (5, date(2026, 11, 24), "1106.00", "Märel Otten", "Rechnung I 2026 0001"),
        (7, date(2026, 11, 25), "-2.50", "Bank", "Entgelt"),
    ]


def test_a_column_for_each_way_gives_sums_of_both_signs() -> None:
    found = read(BOTH_WAYS)

    assert [str(line.amount) for line in found.lines] == ["106.00", "-2.50", "7.00"]


def test_a_column_of_debit_and_credit_gives_unsigned_sums_their_sign() -> None:
    text = "Date,Type,Reference,Amount\n2026-11-23,Credit,I-2026-0001,106.00\n2026-11-24,DEBIT,Fee,2.50\n"

    found = read(text)

    assert [str(line.amount) for line in found.lines] == ["106.00", "-2.50"]
    assert found.cautions == ("Column “Type” says which way money went.",)


def test_such_a_column_is_not_heeded_where_sums_bear_their_sign() -> None:
    text = "Date,Type,Reference,Amount\n2026-11-23,Credit,I-2026-0001,106.00\n2026-11-24,DEBIT,Fee,-2.50\n"

    assert [str(line.amount) for line in read(text).lines] == ["106.00", "-2.50"]


def test_a_file_without_heads_loses_no_line() -> None:
    found = read("24.11.2026;I-2026-0001;1,00\n25.11.2026;I-2026-0002;2,00\n")

    assert (found.reading.head_line, [line.row for line in found.lines]) == (0, [1, 2])


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_separators_are_guessed(separator: str) -> None:
    text = PLAIN.replace(",", separator)

    assert read(text).reading.separator == separator
    assert rows(read(text)) == rows(read(PLAIN))


def test_a_choice_goes_before_a_guess() -> None:
    """1,234 is a thousand and more by its point, and a fault by its comma."""
    text = 'Date;Reference;Amount\n2026-11-24;A;"1,234"\n'

    assert str(read(text, chosen=Reading(decimal_mark=".")).lines[0].amount) == "1234"
    (fault,) = read(text, chosen=Reading(decimal_mark=",")).faults
    assert (fault.line, fault.column, fault.value) == (2, "Amount", "1,234")
    assert fault.allowed == "a sum below ten million with a comma and at most 2 decimals"


def test_days_that_could_be_either_are_said_to_be_guessed() -> None:
    text = "Date,Reference,Amount\n3/4/2026,A,1.00\n5/4/2026,B,2.00\n"

    found = read(text)
    other = read(text, chosen=Reading(date_order="mdy"))

    assert found.cautions == ("Days could be otherwise: read as day.month.year.",)
    assert (found.lines[0].on, other.lines[0].on) == (date(2026, 4, 3), date(2026, 3, 4))
    assert other.cautions == ()


def test_the_order_of_days_is_told_by_one_that_can_be_only_that() -> None:
    assert read("Date,Reference,Amount\n3/4/2026,A,1.00\n4/13/2026,B,2.00\n").lines[0].on == date(2026, 3, 4)


def test_columns_that_cannot_be_told_have_to_be_chosen() -> None:
    text = "P,Q,R,S\n2026-11-24,2026-11-25,1.00,2.00\n"

    found = read(text)
    chosen = ColumnsChosen(date=1, amount=3, text=(0, 2))

    assert (found.sound, found.missing, found.heads) == (False, ("day", "sum"), ("P", "Q", "R", "S"))
    assert rows(read(text, chosen=Reading(columns=chosen))) == [
        (2, date(2026, 11, 25), "2.00", "", "2026-11-24 1.00")
    ]


@pytest.mark.parametrize(
    ("said", "amount"),
    [
        ("12.50", "12.50"),
        ("+12.50", "12.50"),
        ("12.50-", "-12.50"),
        ("(12.50)", "-12.50"),
        ("\N{MINUS SIGN}12.50", "-12.50"),
        ("$12.50", "12.50"),
        ("USD 12.50", "12.50"),
        ("-1'234.50 EUR", "-1234.50"),
        ("12.50 CR", "12.50"),
        ("12.50 DR", "-12.50"),
        ("12.500", "12.500"),
    ],
)
def test_sums_are_read_however_a_bank_signs_them(said: str, amount: str) -> None:
    (line,) = read(f"Date,Payer,Reference,Amount\n2026-11-24,X,A,{said}\n").lines

    assert line.amount == Decimal(amount)


def test_a_line_that_stands_twice_is_two_payments() -> None:
    found = read(f"{PLAIN}2026-11-23, MÄREL  OTTEN,i-2026-0001,106.0\n")

    assert [(line.row, line.ordinal, line.alike) for line in found.lines] == [(2, 1, 2), (3, 1, 1), (4, 2, 2)]
    assert len({line.fingerprint for line in found.lines}) == 3


def test_the_fingerprint_is_the_same_however_the_file_is_made() -> None:
    german = (
        "Buchungstag;Auftraggeber;Verwendungszweck;Betrag\n23.11.2026;MÄREL OTTEN;I-2026-0001;106,00\n"
        "24.11.2026;Bank;Fee;-2,50\n"
    )

    assert [line.fingerprint for line in read(german, "cp1252").lines] == [
        line.fingerprint for line in read(PLAIN).lines
    ]


def test_nothing_that_can_not_be_stored_comes_through() -> None:
    found = read("Date,Payer,Reference,Amount\n2026-11-24,Mar\x00el\x07,A\u202eB,1.00\n")

    assert (found.lines[0].payer, found.lines[0].text) == ("Marel", "AB")
