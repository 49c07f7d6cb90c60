"""Pages of a price list before it is checked: handing in, choosing columns, fetching refused rows."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from openpyxl import Workbook

from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.handing_in import hand_in, keep_reading
from catalogue.models import ListTerms, PriceList
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.suggest import suggest
from tests.cast import desk
from tests.imports.price_lists import HEADS, csv_file, ring
from tests.prices.cast import HOUSE, NOW

pytestmark = pytest.mark.django_db
SPRING = csv_file(ring(), ring(Part_number="KV-2", Net_price="ask"), separator=";")


@pytest.fixture
def at_desk(client: Client) -> Client:
    client.force_login(desk())
    return client


def handed_in(client: Client, content: bytes, supplier: str = HOUSE) -> Any:
    file = SimpleUploadedFile("spring.csv", content)
    return client.post(reverse("price-list-new"), {"supplier": supplier, "file": file})


def chosen(**changed: str) -> dict[str, str]:
    """What is sent from the page of columns; the names of columns are in_number and so on."""
    form = {"in_number": "0", "in_name": "1", "in_cost": "2", "head_line": "1", "head_lines": "1"}
    form |= {"decimal_mark": ".", "separator": ";", "charset": "utf-8", "prices_for": "1"}
    return form | changed


def columns(client: Client, row: PriceList, **changed: str) -> Any:
    return client.post(reverse("price-list-columns", args=[row.pk]), chosen(**changed))


def waiting() -> PriceList:
    return hand_in(supplier=HOUSE, name="spring.csv", content=SPRING, by=desk(), now=NOW)


def text(answer: Any) -> str:
    return " ".join(answer.content.decode().split())


def test_a_file_that_is_handed_in_shows_its_first_lines_as_they_are_read(at_desk: Client) -> None:
    answer = handed_in(at_desk, SPRING)
    assert PriceList.objects.get().supplier_id == HOUSE
    page = text(at_desk.get(answer.url))
    assert "<b>KV-0417/B</b> Ring set" in page
    assert "Net price: \u201cask\u201d is no price" in page
    assert '<option value="2" selected>Net price</option>' in page


def test_a_file_that_cannot_be_read_is_not_kept_and_the_supplier_stays_chosen(at_desk: Client) -> None:
    answer = handed_in(at_desk, b"%PDF-1.7")
    assert answer.status_code == 422
    assert "The file is neither a workbook nor a text." in text(answer)
    assert f'<option value="{HOUSE}" selected>' in text(answer)
    assert not PriceList.objects.exists()


def test_what_is_chosen_is_kept_for_the_list_and_for_the_suppliers_next(at_desk: Client) -> None:
    row = waiting()
    answer = columns(at_desk, row, keep="yes", in_list_price="3", list_currency="eur")
    assert answer.url == reverse("price-list", args=[row.pk])
    row.refresh_from_db()
    assert row.reading["columns"] == {"number": 0, "name": 1, "cost": 2, "list_price": 3}
    assert (row.reading["heads"]["cost"], row.reading["currency"]) == ("Net price", "EUR")
    assert ListTerms.objects.get(supplier=HOUSE).reading == row.reading
    moved = csv_file(["x", *ring()], heads=["Colour", *HEADS])
    page = text(at_desk.get(handed_in(at_desk, moved).url))
    assert "It is read as this supplier's last list was." in page.replace("&#x27;", "'")
    assert '<option value="3" selected>Net price</option>' in page


def test_a_workbook_is_unpacked_for_the_first_look_at_a_sheet_and_not_for_each(at_desk: Client) -> None:
    book = Workbook()
    sheets = [book.active, book.create_sheet("Net prices")]
    for sheet, row in zip(sheets, (["see the other sheet"], ring()), strict=True):
        assert sheet is not None
        sheet.append(HEADS)
        sheet.append(row)
    book.save(out := BytesIO())
    handed_in(at_desk, out.getvalue())
    row = PriceList.objects.get()
    asked = {"sheet": "Net prices", "separator": "", "charset": ""}
    assert "KV-0417/B" in text(columns(at_desk, row, **asked))
    PriceList.objects.update(place="", held=b"PK\x03\x04")
    assert "KV-0417/B" in text(columns(at_desk, row, **asked))
    assert "see the other sheet" in text(at_desk.get(reverse("price-list-columns", args=[row.pk])))


def test_a_list_may_be_looked_at_without_being_kept(at_desk: Client) -> None:
    row = waiting()
    page = text(columns(at_desk, row, prices_for="100"))
    row.refresh_from_db()
    assert (row.reading, "0.125" in page) == ({}, True)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (
            {"in_cost": ""},
            "Your price</a>: Nothing is chosen. There are: Part number, Description, Net price,",
        ),
        ({"in_name": "0"}, "The same column is chosen for \u201cPart number\u201d."),
        ({"charset": "utf-16"}, "holds a character that is not UTF-16"),
        ({"prices_for": "0"}, "\u201c0\u201d is not a number from 1 to 30000, whole."),
        ({"list_currency": "euro"}, "is not three letters, such as EUR."),
    ],
)
def test_a_choice_that_is_none_is_named_and_nothing_typed_is_lost(
    at_desk: Client, changed: dict[str, str], said: str
) -> None:
    row = waiting()
    answer = columns(at_desk, row, keep="yes", in_gtin="4", **changed)
    row.refresh_from_db()
    assert (answer.status_code, row.reading) == (422, {})
    page = text(answer).replace("&#x27;", "'")
    assert said in page
    assert '<option value="4" selected>GTIN</option>' in page


def test_what_reading_refused_is_kept_with_what_taking_in_refused() -> None:
    rows = [ring(), ring(Net_price="99"), ring(Part_number="KV-2", Net_price="ask")]
    content = csv_file(*rows, separator=";")
    row = hand_in(supplier=HOUSE, name="spring.csv", content=content, by=desk(), now=NOW)
    keep_reading(pk=row.pk, reading=suggest(content, row.name).reading.model_dump(mode="json"))
    given = read_price_list(content, row.name, suggest(content, row.name).reading)
    found = check_list(pk=row.pk, given=replace(given, cautions=("look",)), on=NOW.date(), now=NOW).found
    assert [line for line, *_ in found["refused"]] == [3, 4]
    assert found["cautions"] == ["look"]


def test_refused_rows_are_fetched_with_the_reasons_of_reading_and_of_taking_in(at_desk: Client) -> None:
    row = hand_in(
        supplier=HOUSE,
        name="spring.csv",
        content=csv_file(
            ring(), ring(Net_price="99"), ring(Part_number="KV-2", Net_price="ask"), separator=";"
        ),
        by=desk(),
        now=NOW,
    )
    columns(at_desk, row, keep="yes", in_list_price="3")
    answer = at_desk.get(reverse("price-list-refused", args=[row.pk]))
    heads, *lines = answer.content.decode("utf-8-sig").splitlines()
    assert answer["Content-Disposition"] == 'attachment; filename="spring refused.csv"'
    assert heads.startswith("Part number;Description;Net price;")
    assert [line.split(";")[8] for line in lines] == ["3", "4"]
    assert "below the cost of 99.00" in lines[0]
    assert "is no price" in lines[1]


def test_refused_rows_that_were_mended_make_nothing_gone_and_the_same_file_is_found_again(
    at_desk: Client,
) -> None:
    more = ["Line of the file", "Why it was refused", "What is allowed"]
    back = csv_file([*ring(), "3", "is no price", "a price"], heads=[*HEADS, *more], separator=";")
    assert "These rows were refused before" in text(at_desk.get(handed_in(at_desk, back).url))
    row = PriceList.objects.get()
    columns(at_desk, row, keep="yes")
    row.refresh_from_db()
    assert not row.whole
    assert handed_in(at_desk, back).url == reverse("price-list", args=[row.pk])
