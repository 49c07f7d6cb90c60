"""The lines of a price list: articles, those passed over, those refused, and the file of the last."""

from __future__ import annotations

import io
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from catalogue.calc.price_list.reading import Reading
from quotes.imports.price_list.limits import Figure, MadeDate, Odd, Raw
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.refused_file import refused_file
from quotes.imports.price_list.rows import RowReader
from quotes.imports.price_list.suggest import suggest
from tests.imports.price_lists import HEADS, RING, csv_file, read, ring, the_row, workbook


def test_titles_notes_blanks_and_heads_said_again_are_passed_over() -> None:
    found = read(
        csv_file(
            ["RINGS", *[""] * 7],
            ring(),
            [""] * 8,
            HEADS,
            ring(Part_number="KV-2"),
            ["All prices before tax", *[""] * 7],
        )
    )
    assert ([row.line for row in found.rows], found.rejected) == ([3, 6], ())
    assert (found.lines, found.passed_over) == (5, 3)


def test_a_row_is_refused_once_with_all_that_is_wrong_with_it() -> None:
    found = read(csv_file(ring(Part_number="", Net_price="ask", GTIN="1")))
    (one,) = found.rejected
    assert (one.line, one.column, one.value) == (2, "Net price", "ask")
    assert one.besides[0].startswith("GTIN: \u201c1\u201d is no GTIN; ")
    assert one.besides[1] == "Part number is blank; it is needed on every row"
    assert one.cells[3] == "16.90"


def test_a_separator_within_a_name_is_found_out() -> None:
    content = csv_file(ring(Replaced_by="KV-9")).replace(b"Ring set", b"Ring, set")
    (one,) = read(content).rejected
    assert "stands under no heading" in " ".join((one.reason, *one.besides))


def test_a_column_that_changes_from_figures_to_words_is_refused_from_there() -> None:
    rows = [ring(Part_number=f"KV-{place}", Net_price=place + 1, List_price="") for place in range(40)]
    rows += [ring(Part_number=f"KX-{place}", Net_price="ask us", List_price="") for place in range(20)]
    found = read(workbook(*rows))
    assert (len(found.rows), [one.line for one in found.rejected]) == (40, list(range(42, 62)))
    assert found.cautions == ("From line 42 on “Net price” holds words where it held figures.",)


def test_a_number_that_lost_its_noughts_is_refused_where_the_column_shows_it() -> None:
    rows = [ring(Part_number=f"00{place}42") for place in range(3)]
    found = read(workbook(*rows, ring(Part_number=742)))
    (one,) = found.rejected
    assert (one.value, one.reason) == ("742", "may have lost its leading noughts: others have 5 digits")


def test_a_number_that_became_a_sum_is_refused_where_the_column_shows_it() -> None:
    found = read(workbook(ring(Part_number="12A5"), ring(Part_number=1200000.0)))
    (one,) = found.rejected
    assert one.reason == "may have been one such as 12E5, which the spreadsheet took for a sum"


def test_a_number_is_what_the_workbook_shows_and_refused_where_it_shows_a_power_of_ten() -> None:
    book = Workbook()
    assert isinstance(book.active, Worksheet)
    for row in (HEADS, ring(Part_number=742), ring(Part_number=120), ring(Part_number=25000)):
        book.active.append(row)
    book.active["A2"].number_format, book.active["A3"].number_format = "00000", "0.00E+00"
    out = io.BytesIO()
    book.save(out)
    found = read(out.getvalue())
    assert [row.number for row in found.rows] == ["00742", "25000"]
    (one,) = found.rejected
    assert (one.line, one.reason) == (
        3,
        "may have been one such as 12E5, which the spreadsheet took for a sum",
    )


def test_a_number_without_a_price_costs_what_replaces_it() -> None:
    rows = [
        ring(Part_number="A1", Net_price="", Replaced_by="A2"),
        ring(Part_number="A2", Net_price="", Replaced_by="-> A3"),
        ring(Part_number="A3", Net_price="7.50"),
        ring(Part_number="B1", Net_price="", Replaced_by="B2"),
        ring(Part_number="B2", Net_price="", Replaced_by="B1"),
    ]
    found = read(csv_file(*rows))
    assert [(row.number, row.cost, row.superseded_by) for row in found.rows] == [
        ("A1", Decimal("7.50"), "A2"),
        ("A2", Decimal("7.50"), "A3"),
        ("A3", Decimal("7.50"), ""),
    ]
    assert [one.line for one in found.rejected] == [5, 6]


def test_a_number_that_is_said_to_replace_itself_is_not_replaced() -> None:
    assert the_row(csv_file(ring(Replaced_by="kv 0417 b"))).superseded_by == ""


def test_rows_of_another_currency_are_refused() -> None:
    heads = (*HEADS, "Currency")
    rows = [[*ring(), "EUR"], [*ring(Part_number="KV-2"), "EUR"], [*ring(Part_number="KV-3"), "USD"]]
    found = read(csv_file(*rows, heads=heads))
    assert [(one.value, one.reason) for one in found.rejected] == [
        ("USD", "is another currency than the list's")
    ]


def test_refused_rows_come_back_as_a_file_of_their_kind_and_are_read_once_mended() -> None:
    content = csv_file(ring(), ring(Part_number="=1+1", Net_price="n\xf6"), separator=";", charset="cp1252")
    reading = suggest(content, "spring.csv").reading
    found = read_price_list(content, "spring.csv", reading)
    file = refused_file(content, "spring.csv", reading, found.rejected)
    heads, row = file.content.decode("cp1252").splitlines()
    assert file.name == "spring refused.csv"
    assert heads == ";".join((*HEADS, "Line of the file", "Why it was refused", "What is allowed"))
    assert row.startswith(
        "'=1+1;Ring set;n\xf6;16.90;4006381333931;each;10;;3;Net price: \u201cn\xf6\u201d is no price;"
    )
    mended = file.content.replace(b"'=1+1;Ring set;n\xf6", b"KV-7;Ring set;9.80")
    assert (
        read_price_list(mended, "spring refused.csv", suggest(mended, "", reading).reading).rows[0].number
        == "KV-7"
    )


def test_refused_rows_of_a_workbook_come_back_in_one_with_numbers_as_numbers() -> None:
    content = workbook(ring(Part_number="=A1", Net_price=-3.5, GTIN=12), above=[["Spring"]])
    reading = suggest(content, "spring.xlsx").reading
    found = read_price_list(content, "spring.xlsx", reading)
    file = refused_file(content, "spring.xlsx", reading, found.rejected)
    sheet = load_workbook(io.BytesIO(file.content)).worksheets[0]
    heads, row = sheet.iter_rows(values_only=True)
    assert found.rejected[0].besides[-1].startswith("Part number is blank, or a formula without a result; ")
    assert heads[:3] == HEADS[:3]
    assert row[2:5:2] == (-3.5, 12)


RAW: st.SearchStrategy[Raw] = st.one_of(
    st.sampled_from(["", " ", "KV-1", "KV 1", "kv\N{NO-BREAK SPACE}1", "1,234.50", "12,5", RING[4], "each"]),
    st.sampled_from([Figure("12.0"), Figure("12.5"), Figure("0.0"), Figure("1e+20"), Figure("-1.0"), True]),
    st.sampled_from([MadeDate("2026-01-02"), Odd("#N/A"), "100 pcs", "pack", "2-Jan", '="01"', "\x00"]),
    st.text(max_size=8),
    st.decimals(0, 99, places=2).map(str),
    st.floats(allow_nan=False).map(repr).map(Figure),
)  # fmt: skip
EVERY = Reading(
    decimal_mark=".",
    columns={
        "number": 0, "name": 1, "cost": 2, "list_price": 3, "gtin": 4, "unit": 5, "pack": 6, "priced_for": 7,
        "lead_days": 8, "superseded_by": 9, "currency": 10,
    },
)  # fmt: skip
SOUND: list[Raw] = ["KV-1", "Ring", "12.5", Figure("13.0"), "", "each", "10", "", "5", "", ""]


@settings(max_examples=150, deadline=None)
@given(st.lists(st.dictionaries(st.integers(0, 10), RAW, max_size=3), min_size=1, max_size=6))
def test_rows_read_many_at_a_time_are_those_read_one_by_one(changes: list[dict[int, Raw]]) -> None:
    lines = [
        (line, [change.get(place, raw) for place, raw in enumerate(SOUND)])
        for line, change in enumerate(changes, start=1)
    ]
    quick, careful = RowReader(EVERY, ()), RowReader(EVERY, ())
    quick.take_many(lines)
    for line, cells in lines:
        careful.take(line, cells)
    assert sorted(quick.rows, key=lambda row: row.line) == careful.rows
    assert quick.rejected == careful.rejected
    assert (quick.lines, quick.passed_over, quick.numeric) == (
        careful.lines,
        careful.passed_over,
        careful.numeric,
    )
