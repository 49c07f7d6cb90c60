"""Whatever bytes are handed in as a statement: lines or faults, and never anything else. No database."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.books.bank_lines import ColumnsChosen, Reading
from quotes.imports.bank.charset import CHARSETS
from quotes.imports.bank.read import read_statement
from quotes.imports.faults import FileFault
from tests.books.test_bank_reading import GERMAN, ON, read, rows

cells = st.sampled_from(
    ["2026-11-24", "24.11.2026", "1/2/26", "1.234,50", "-2.50", "(3)", "Otten", '"', "", "ä", "=1", "\x00"]
)
lines_of_cells = st.lists(st.lists(cells, min_size=1, max_size=5), min_size=0, max_size=8)
readings = st.builds(
    Reading,
    charset=st.sampled_from(["", *CHARSETS, "klingon"]),
    separator=st.sampled_from(["", ",", ";", "\t", "|", "#"]),
    decimal_mark=st.sampled_from(["", ".", ","]),
    date_order=st.sampled_from(["", "ymd", "dmy", "mdy"]),
    head_line=st.sampled_from([None, 0, 1, 2, 99]),
    columns=st.none()
    | st.builds(
        ColumnsChosen,
        date=st.integers(-1, 4),
        amount=st.none() | st.integers(0, 4),
        money_in=st.none() | st.integers(0, 4),
        text=st.tuples(st.integers(0, 4)),
    ),
)


def comes_to_an_end(content: bytes, chosen: Reading) -> None:
    """Lines or faults, and never an exception but the one that says what is wrong with the file."""
    try:
        found = read_statement(content, chosen, on=ON, decimals=2)
    except FileFault:
        return
    assert found.lines or found.faults or found.missing or not found.sound
    for line in found.lines:
        assert line.payer.isprintable()
        assert line.text.isprintable()
        assert abs(line.amount) <= 10_000_000
    assert len({line.fingerprint for line in found.lines}) == len(found.lines)


@given(content=st.binary(max_size=400), chosen=readings)
@settings(max_examples=200, deadline=None)
def test_any_bytes_come_to_lines_or_faults(content: bytes, chosen: Reading) -> None:
    comes_to_an_end(content, chosen)


@given(
    table=lines_of_cells,
    separator=st.sampled_from([",", ";", "\t"]),
    charset=st.sampled_from(["utf-8", "utf-16", "cp1252"]),
    chosen=readings,
)
@settings(max_examples=300, deadline=None)
def test_anything_like_a_statement_comes_to_lines_or_faults(
    table: list[list[str]], separator: str, charset: str, chosen: Reading
) -> None:
    text = "\n".join(separator.join(row) for row in table)

    comes_to_an_end(text.encode(charset), chosen)


@given(cut=st.integers(min_value=1, max_value=len(GERMAN.encode("cp1252")) - 1))
@settings(max_examples=100, deadline=None)
def test_a_cut_never_changes_a_line_that_stands_before_it(cut: int) -> None:
    """Where a cut leaves something that reads, all lines but the last are those of the whole file."""
    whole = rows(read(GERMAN, "cp1252"))
    try:
        found = read(GERMAN.encode("cp1252")[:cut])
    except FileFault:
        return
    assert all(row in whole for row in rows(found)[:-1])
