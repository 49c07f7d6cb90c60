"""The workbook, opened again by another library: equal totals, numbers as numbers, text that nothing runs."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from functools import cache
from io import BytesIO
from typing import Any

import openpyxl
import pytest
from python_calamine import CalamineWorkbook

from catalogue.calc.money import round_half_up
from quotes.calc.sheet.issued_values import Sheet
from quotes.documents.words import NO_BREAK
from quotes.documents.xlsx import quote_workbook
from tests.documents.samples import comparison_with, from_hopeless_to_nearly_sure
from tests.sample_sheet import sample_comparison, sample_sheet

SHEET = sample_sheet()
HEADS = 5


@cache
def content() -> bytes:
    return quote_workbook(SHEET)


def rows(name: str, of: bytes | None = None) -> list[list[Any]]:
    return CalamineWorkbook.from_filelike(BytesIO(of or content())).get_sheet_by_name(name).to_python()


def pages(of: bytes | None = None) -> Any:
    return openpyxl.load_workbook(BytesIO(of or content()))


def exact(number: float) -> Decimal:
    return round_half_up(Decimal(str(number)), 2)


def answered(asked: str) -> list[Any]:
    (found,) = [row for row in rows("Comparison") if row[0] == asked]
    return found[1:]


def test_there_is_a_comparison_a_sheet_for_each_option_and_the_steps() -> None:
    assert pages().sheetnames == ["Comparison", "Refresh", "Mild build", "Full power", "Steps"]


def test_the_totals_of_the_comparison_equal_the_stored_ones() -> None:
    comparison = SHEET.comparison
    for asked, part in (("What does it cost, with tax?", "gross"), ("Before tax", "net"), ("Tax", "tax")):
        stored = [getattr(comparison.leave_it, part)]
        stored += [getattr(option, part).typical for option in comparison.options]
        assert [exact(each) for each in answered(asked)] == stored


@pytest.mark.parametrize("tier", ["refresh", "mild", "full"])
def test_the_lines_of_each_option_add_up_to_its_stored_sums(tier: str) -> None:
    option = SHEET.comparison.option(tier)
    table = rows(option.name)[HEADS + 1 :]
    nets = [exact(row[6]) for row in table[: len(option.lines)]]
    assert nets == [line.net for line in option.lines]
    assert sum(nets) == option.net.typical
    sums = {row[2]: exact(row[6]) for row in table[len(option.lines) :] if row[2] and not row[3]}
    assert sums["Sum before tax"] == option.net.typical
    assert sums["Sum with tax"] == option.gross.typical


def test_quantity_times_price_is_the_net_of_every_line() -> None:
    for row in rows("Mild build")[HEADS + 1 : HEADS + 1 + len(SHEET.comparison.option("mild").lines)]:
        assert exact(row[3] * row[5]) == exact(row[6])


def test_the_steps_hold_every_step_of_every_option() -> None:
    table = rows("Steps")[HEADS + 1 :]
    stored = [(option.name, step) for option in SHEET.comparison.options for step in option.ladder]
    assert [(row[0], row[1], exact(row[4])) for row in table] == [
        (name, step.number, step.gross) for name, step in stored
    ]


def test_dates_are_dates() -> None:
    assert answered("When is it ready? Promised, 8 in 10")[1] == date(2027, 1, 21)


def test_money_has_the_sign_and_decimals_of_its_currency() -> None:
    cell = pages()["Comparison"]["C7"]
    assert cell.value == pytest.approx(float(SHEET.comparison.options[0].gross.typical))
    assert cell.number_format == '"$"#,##0.00'
    forint = sample_sheet(comparison=sample_comparison(currency="HUF", decimals=0))
    assert pages(quote_workbook(forint))["Comparison"]["C7"].number_format == '"HUF"#,##0'


def test_a_chance_is_a_share_shown_in_whole_per_cent_and_never_as_certain() -> None:
    book = pages(quote_workbook(sample_sheet(comparison=from_hopeless_to_nearly_sure())))
    cells = {cell.value: cell.number_format for row in book["Comparison"].iter_rows() for cell in row}
    assert f"over{NO_BREAK}99{NO_BREAK}%" in cells
    shares = [value for value, written in cells.items() if written == "0%" and isinstance(value, float)]
    assert shares
    assert [value for value in shares if round(value, 2) != value or not 0 < value < 1] == []


def test_the_heads_stay_in_sight_and_print_on_every_page() -> None:
    for page in pages():
        assert page.freeze_panes is not None
        assert page.freeze_panes.endswith("7")
        assert page.print_title_rows == "$6:$6"
        assert page.page_setup.fitToHeight == 0
        assert page.sheet_properties.pageSetUpPr.fitToPage


def test_columns_are_as_wide_as_what_stands_in_them() -> None:
    page = pages()["Refresh"]
    longest = max(len(line.description) for line in SHEET.comparison.options[0].lines)
    assert page.column_dimensions["C"].width >= longest


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_a_text_that_begins_like_a_formula_stays_text(start: str) -> None:
    attack = f'{start}HYPERLINK("http://example.invalid","x")'
    party = SHEET.heading.customer.model_copy(update={"name": attack})
    option = sample_comparison().options[0]
    lines = (option.lines[0].model_copy(update={"description": attack, "reason": attack}), *option.lines[1:])
    sheet = sample_sheet(
        customer=party, comparison=comparison_with(option.model_copy(update={"lines": lines, "name": attack}))
    )
    book = pages(quote_workbook(sheet))
    kinds = {cell.data_type for page in book for row in page.iter_rows() for cell in row}
    assert "f" not in kinds
    hostile = [
        cell
        for page in book
        for row in page.iter_rows()
        for cell in row
        if isinstance(cell.value, str) and cell.value.startswith((start, "\n"))
    ]
    assert hostile
    assert all(cell.quotePrefix for cell in hostile)


def test_characters_that_a_workbook_refuses_are_left_out() -> None:
    party = SHEET.heading.customer.model_copy(update={"name": "Ma\x00r\x0bel\ud800 Otten"})
    assert "For Marel Otten" in rows("Comparison", quote_workbook(sample_sheet(customer=party)))[1][0]


def test_a_tier_name_that_no_sheet_may_have_is_made_to_fit() -> None:
    first, second, _ = sample_comparison().options
    long = "[a/b]:*?" + "x" * 40
    comparison = comparison_with(
        first.model_copy(update={"name": long}), second.model_copy(update={"name": long})
    )
    names = pages(quote_workbook(sample_sheet(comparison=comparison))).sheetnames
    assert len(set(names)) == 4
    assert all(len(name) <= 31 for name in names)


def test_what_the_workshop_paid_is_in_no_cell() -> None:
    costs = {line.cost for option in SHEET.comparison.options for line in option.lines}
    shown = {line.net for option in SHEET.comparison.options for line in option.lines}
    shown |= {line.unit_price for option in SHEET.comparison.options for line in option.lines}
    values = {
        exact(cell)
        for name in ("Refresh", "Full power")
        for row in rows(name)
        for cell in row
        if isinstance(cell, float)
    }
    assert not values & (costs - shown)


def test_the_honesty_sentences_stand_under_the_comparison() -> None:
    told = [row[0] for row in rows("Comparison")]
    assert set(SHEET.honesty) <= set(told)


def test_a_sheet_stored_and_read_back_gives_the_same_cells() -> None:
    again = quote_workbook(Sheet.model_validate_json(SHEET.model_dump_json()))
    for name in pages().sheetnames:
        assert rows(name, again) == rows(name)
