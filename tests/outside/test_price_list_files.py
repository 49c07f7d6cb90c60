"""Price lists that other software wrote, and published numbers that the reading is held against.

The files in `price_lists` were saved by LibreOffice Calc 7.4 in three locales: the same four articles as a
workbook, and as text with semicolons in Latin-1, with tabs in UTF-16, and with commas in UTF-8.
"""

from __future__ import annotations

import codecs
import io
from decimal import Decimal
from pathlib import Path

import pytest
import xlsxwriter
from babel.numbers import get_currency_precision, list_currencies
from openpyxl import load_workbook

from catalogue.calc.price_list.reading import Reading
from catalogue.calc.price_list.standing import PLACES
from quotes.imports.price_list.gtins import checks, gtin_of
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.suggest import suggest

FOLDER = Path(__file__).with_name("price_lists")
ARTICLES = [
    ("KV-0417/B", "Pleuellager Größe 0,25", Decimal("12.5"), Decimal("16.9"), "4006381333931", 10),
    ("00123", "Joint torique", Decimal("0.75"), Decimal("1.2"), "", 100),
    ("HV 22-8", "Kolbenring, verchromt", Decimal("1234.5"), Decimal(1890), "", 1),
    ("ZX9", 'Ventil "lang"', Decimal("88.07"), None, "", 1),
]
WRITTEN = {
    "german_latin1.csv": (";", "cp1252", ",", ""),
    "french_utf16.csv": ("\t", "utf-16", ",", "EUR"),
    "swiss_utf8.csv": (",", "utf-8", ".", "CHF"),
}


def articles(content: bytes) -> list[tuple[object, ...]]:
    """What is read of a list as it is suggested, when nothing is refused."""
    found = read_price_list(content, "list", suggest(content, "list").reading)
    assert not found.rejected
    return [(row.number, row.name, row.cost, row.list_price, row.gtin, row.pack) for row in found.rows]


@pytest.mark.parametrize("name", WRITTEN)
def test_a_text_that_libreoffice_saved_in_another_locale_is_read(name: str) -> None:
    content = (FOLDER / name).read_bytes()
    reading = suggest(content, name).reading
    assert (reading.separator, reading.charset, reading.decimal_mark, reading.currency) == WRITTEN[name]
    assert reading.head_line == 3
    assert articles(content) == ARTICLES


def test_a_mark_before_utf_8_is_no_part_of_the_list() -> None:
    assert articles(codecs.BOM_UTF8 + (FOLDER / "swiss_utf8.csv").read_bytes()) == ARTICLES


@pytest.mark.parametrize("name", ["german.xlsx", "french.xlsx", "swiss.xlsx"])
def test_a_workbook_that_libreoffice_saved_is_read(name: str) -> None:
    assert articles((FOLDER / name).read_bytes()) == ARTICLES


def test_a_workbook_that_openpyxl_saved_again_is_read() -> None:
    out = io.BytesIO()
    load_workbook(FOLDER / "german.xlsx").save(out)
    assert articles(out.getvalue()) == ARTICLES


def test_formulas_are_read_as_the_values_that_were_last_reckoned() -> None:
    out = io.BytesIO()
    with xlsxwriter.Workbook(out, {"in_memory": True}) as book:
        sheet = book.add_worksheet("Prices")
        sheet.write_row(0, 0, ["Part number", "Description", "Net price", "List price", "GTIN", "Pack size"])
        for line, article in enumerate(ARTICLES, start=1):
            number, name, cost, list_price, gtin, pack = article
            sheet.write_row(line, 0, [number, name])
            sheet.write_formula(line, 2, "=1/0", value=float(cost))
            sheet.write_formula(line, 3, "='[other.xlsx]Prices'!A1", value=float(list_price or 0) or "")
            sheet.write_string(line, 4, gtin)
            sheet.write_number(line, 5, pack)
    assert articles(out.getvalue()) == ARTICLES


PUBLISHED = {
    # GS1, "How to calculate a check digit manually", with the example 629104150021 and its check digit 3.
    "6291041500213",
    # GS1 Sweden, "Så beräknas kontrollsiffran".
    "7300011000017",
    # GS1 India, "How to calculate the Check Digit".
    "8904000210037",
}


@pytest.mark.parametrize("gtin", sorted(PUBLISHED))
def test_the_check_digits_that_gs1_publishes_as_examples_are_ours(gtin: str) -> None:
    assert gtin_of(gtin) == gtin
    assert [digit for digit in "0123456789" if checks(gtin[:-1] + digit)] == [gtin[-1]]


def test_no_currency_has_more_decimals_than_a_listed_price_keeps() -> None:
    assert max(map(get_currency_precision, list_currencies())) <= PLACES


@pytest.mark.parametrize(
    ("currency", "written"), [("JPY", "1,234"), ("EUR", "1,234.50"), ("KWD", "1,234.567")]
)
def test_a_price_keeps_the_decimals_that_its_currency_has(currency: str, written: str) -> None:
    places = get_currency_precision(currency)
    content = f"Part number|Net price\nKV-1|{written} {currency}\n".encode()
    reading = Reading(head_line=1, columns={"number": 0, "cost": 1}, decimal_mark=".", currency=currency)
    (row,) = read_price_list(content, "list", reading).rows
    assert f"{row.cost:,.{places}f}" == written
