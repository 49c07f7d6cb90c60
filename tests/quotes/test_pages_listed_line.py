"""The worksheet's own line finds what suppliers list, and is filled in from it."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from catalogue.models import ListedPart
from quotes.calc.ask.request import Edits
from quotes.models import Quote
from tests.prices.cast import HOUSE, listed, read, taken
from tests.quotes.card_payload import faults_on, signed_in, text_of
from tests.quotes.test_pages_worksheet import address, change, edits

pytestmark = pytest.mark.usefixtures("catalogue")


@pytest.fixture
def on_list(quote: Quote) -> Quote:
    taken(read(listed("NG-77/B", "40", name="Dowel, long"), listed("NG-78", "3", 3)))
    return quote


def test_what_suppliers_list_is_found_as_one_types_and_at_a_press(on_list: Quote) -> None:
    address_ = reverse("part-search", query={"for": "line", "q": "dowel"})
    assert 'name="take-listed"' in signed_in().get(address_).content.decode()
    page = change(on_list, do="find-listed", q="dowel", own__quantity="4")
    assert "NG-77/B" in text_of(page)
    assert 'value="4"' in page.content.decode()
    assert "No supplier lists “cogwheel”." in text_of(change(on_list, do="find-listed", q="cogwheel"))
    assert edits(on_list) == Edits()


def test_a_press_fills_in_the_line_and_adding_it_keeps_whose_it_is(on_list: Quote) -> None:
    one = ListedPart.objects.get(number="NG-77/B")
    page = change(on_list, **{"take-listed": str(one.pk)}, own__note="as asked").content.decode()
    fields = dict(re.findall(r'name="own-(\w+)" value="([^"]*)"', page))
    assert (fields["description"], fields["quantity"], fields["cost"]) == ("Dowel, long", "1", "40.00")
    assert (fields["note"], f'value="{HOUSE}" selected' in page) == ("as asked", True)
    assert edits(on_list) == Edits()
    told = {f"own-{name}": value for name, value in fields.items()} | {"own-supplier": HOUSE}
    change(on_list, do="own-line", **told)
    (line,) = edits(on_list).own_lines
    assert (line.supplier, line.number, line.unit) == (HOUSE, "NG-77/B", "each")
    assert line.cost == 40
    assert "NG-77/B" in text_of(signed_in().get(address(on_list)))


@pytest.mark.parametrize(
    ("typed", "field"),
    [({"supplier": HOUSE}, "number"), ({"number": "NG-1"}, "supplier"), ({"supplier": "nobody"}, "supplier")],
)
def test_a_number_and_who_has_it_belong_together(quote: Quote, typed: dict[str, str], field: str) -> None:
    line = {"own-description": "Dowel", "own-kind": "part", "own-quantity": "1", "own-unit_price": "5"}
    answer = change(quote, do="own-line", **line, **{f"own-{name}": value for name, value in typed.items()})
    assert f"own-{field}" in faults_on(answer)
    assert edits(quote) == Edits()


def test_what_nobody_lists_any_more_is_said(quote: Quote) -> None:
    assert "Nobody lists this part any more" in text_of(change(quote, **{"take-listed": "999999"}))
