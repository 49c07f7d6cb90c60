"""The lists of the catalogue."""

from __future__ import annotations

import csv
import io

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from openpyxl import load_workbook

from catalogue.models import (
    Component,
    Duty,
    EngineType,
    Event,
    Fact,
    Finding,
    Limit,
    LoadLaw,
    MachineWork,
    Operation,
    Part,
    Policy,
    Source,
    Supplier,
    Tier,
)
from catalogue.views.sheets import SHEETS
from tests.cast import builder, owner
from tests.drawn_alike import as_library_draws

pytestmark = pytest.mark.django_db
MODELS = {
    "parts": Part, "components": Component, "operations": Operation, "machine_work": MachineWork,
    "tiers": Tier, "load_laws": LoadLaw, "duties": Duty, "engine_types": EngineType,
    "findings": Finding, "events": Event,
    "limits": Limit, "suppliers": Supplier, "sources": Source, "facts": Fact, "policies": Policy,
}  # fmt: skip


@pytest.fixture
def reader(client: Client) -> Client:
    """Somebody signed in who is not the owner."""
    client.force_login(builder())
    return client


def page(client: Client, kind: str, **asked: str) -> str:
    response = client.get(reverse("catalogue:list", args=[kind]), asked)
    assert response.status_code == 200
    return response.content.decode()


def taken_as_csv(client: Client, kind: str, **asked: str) -> list[list[str]]:
    response = client.get(reverse("catalogue:list", args=[kind]), {**asked, "as": "csv"})
    return list(csv.reader(io.StringIO(response.content.decode("utf-8-sig"))))


@pytest.mark.parametrize("kind", SHEETS)
def test_every_list_opens_and_shows_what_there_is(loaded: None, reader: Client, kind: str) -> None:
    shown = page(reader, kind)
    assert f">{SHEETS[kind].title}</h1>" in shown
    first = MODELS[kind]._default_manager.all()[0]
    assert reverse("catalogue:entry", args=[kind, first.pk]) in shown


def test_every_cell_is_drawn_as_the_library_draws_it(loaded: None) -> None:
    for sheet in SHEETS.values():
        table = sheet.table(list(sheet.found()[:20]))
        assert table.drawn() == as_library_draws(table), sheet.kind


@pytest.mark.parametrize("kind", SHEETS)
def test_an_empty_list_says_what_to_do_first(no_catalogue: None, reader: Client, kind: str) -> None:
    shown = page(reader, kind)
    assert f"No {SHEETS[kind].title.lower()} yet." in shown
    assert "manage.py load_catalogue" in shown


def test_the_first_page_says_how_much_is_in_each_sheet(loaded: None, reader: Client) -> None:
    shown = reader.get(reverse("catalogue:home")).content.decode()
    assert ">391</td>" in shown
    assert ">67</td>" in shown


def test_the_first_page_of_an_empty_catalogue_says_what_to_do(no_catalogue: None, reader: Client) -> None:
    shown = reader.get(reverse("catalogue:home")).content.decode()
    assert "Nothing is loaded yet." in shown
    assert "manage.py load_catalogue" in shown


@pytest.mark.parametrize("kind", SHEETS)
def test_a_list_costs_the_same_for_one_row_and_for_twenty(loaded: None, reader: Client, kind: str) -> None:
    url = reverse("catalogue:list", args=[kind])
    codes = list(MODELS[kind]._default_manager.values_list("pk", flat=True)[:20])
    reader.get(url)
    counted = []
    for some in (codes[:1], codes):
        MODELS[kind]._default_manager.update(search_key="")
        MODELS[kind]._default_manager.filter(pk__in=some).update(search_key="shown")
        with CaptureQueriesContext(connection) as queries:
            assert reader.get(url, {"q": "shown"}).status_code == 200
        counted.append(len(queries))
    assert len(codes) == 1 or counted[0] == counted[1]
    assert counted[1] <= 12


def test_search_forgives_case_accents_and_stops(loaded: None, reader: Client) -> None:
    Supplier.objects.create(code="cafe", name="Café Grüße", kind="parts", search_key="cafe grusse")
    assert "Café Grüße" in page(reader, "suppliers", q="CAFE.")
    assert "Nothing fits." in page(reader, "suppliers", q="zebra")


def test_search_wants_every_word(loaded: None, reader: Client) -> None:
    assert [row[0] for row in taken_as_csv(reader, "components", q="rod bolts")][1:] == [
        "connecting rod bolts"
    ]


def test_filters_narrow_and_say_how_many_are_left(loaded: None, reader: Client) -> None:
    shown = page(reader, "parts", engine_type="four600", grade="performance")
    assert "34 of 391" in shown
    assert "SINGLE450" not in shown


def test_sorting_is_followed_and_turned_round(loaded: None, reader: Client) -> None:
    up = [row[6] for row in taken_as_csv(reader, "parts", sort="cost")[1:]]
    down = [row[6] for row in taken_as_csv(reader, "parts", sort="-cost")[1:]]
    assert [float(cost) for cost in up] == sorted(float(cost) for cost in up)
    assert float(down[0]) == 2000.0
    assert float(up[0]) == 2.0


def test_what_has_no_value_stands_last_both_ways(loaded: None, reader: Client) -> None:
    Component.objects.filter(code="rings").update(search_key="ring")
    for sort in ("life_hours", "-life_hours"):
        rows = taken_as_csv(reader, "components", sort=sort)[1:]
        assert [row[5] for row in rows][-4:] == ["", "", "", ""]


def test_pages_hold_twenty_five_and_lead_on(loaded: None, reader: Client) -> None:
    first, last = page(reader, "components"), page(reader, "components", page="3")
    assert first.count('class="name"') == 25
    assert last.count('class="name"') == 67 - 50
    assert 'rel="next" href="?page=2"' in first
    assert 'rel="next"' not in last


def test_a_page_that_is_not_there_shows_one_that_is(loaded: None, reader: Client) -> None:
    assert ">Components</h1>" in page(reader, "components", page="99")
    assert ">Components</h1>" in page(reader, "components", page="x", sort="nothing")


def test_a_choice_that_is_not_there_is_said_at_its_field(loaded: None, reader: Client) -> None:
    shown = page(reader, "parts", grade="gold")
    assert "gold is not one of the available choices" in shown


def test_a_search_with_a_nul_or_ten_thousand_letters_is_said_at_its_field(
    loaded: None, reader: Client
) -> None:
    assert "Null characters are not allowed" in page(reader, "parts", q="a\x00b")
    assert "at most 200 characters" in page(reader, "parts", q="a" * 10_000)


def test_the_file_holds_what_is_shown_on_every_page(loaded: None, reader: Client) -> None:
    heads, *rows = taken_as_csv(reader, "parts", engine_type="four600", sort="list_price")
    assert heads[:4] == ["Part", "Number", "Engine type", "Grade"]
    assert len(rows) == 97
    assert {row[2] for row in rows} == {"600 inline four"}
    prices = [float(row[7]) for row in rows]
    assert prices == sorted(prices)


def test_the_workbook_holds_numbers_as_numbers_and_text_as_text(loaded: None, reader: Client) -> None:
    Part.objects.filter(code="FOUR600-PISTON").update(name="=1+1", search_key="evil")
    response = reader.get(reverse("catalogue:list", args=["parts"]), {"q": "evil", "as": "xlsx"})
    sheet = load_workbook(io.BytesIO(response.content)).active
    assert sheet is not None
    row = sheet[2]
    assert (row[0].value, row[0].data_type) == ("=1+1", "s")
    assert (row[6].value, row[6].data_type) == (73.6, "n")
    assert sheet.freeze_panes == "A2"


def test_the_text_file_disarms_what_a_spreadsheet_would_run(loaded: None, reader: Client) -> None:
    Supplier.objects.create(code="evil", name="@SUM(A1)", kind="parts", note="-2+3", search_key="evil")
    row = taken_as_csv(reader, "suppliers", q="evil")[1]
    assert row[0] == "'@SUM(A1)"
    assert row[4] == "'-2+3"


def test_hours_are_whole_on_each_engine_type(loaded: None, reader: Client) -> None:
    heads, *rows = taken_as_csv(reader, "operations", q="valves out")
    assert heads == [
        "Operation", "Kind of work", "450 single, h", "650 parallel twin, h", "600 inline four, h",
        "1000 inline four, h",
    ]  # fmt: skip
    found = next(row for row in rows if row[0].startswith("valves, springs"))
    assert [float(hours) for hours in found[2:]] == [0.3, 0.5, 1.0, 1.0]


def test_limits_say_that_they_are_not_from_your_manual(loaded: None, reader: Client) -> None:
    assert "default, not from your manual" in page(reader, "limits")
    Limit.objects.update(from_manual=True)
    assert {row[8] for row in taken_as_csv(reader, "limits")[1:]} == {"your manual"}


def test_only_the_owner_is_offered_to_enter_something(loaded: None, reader: Client) -> None:
    assert "Enter a new part" not in page(reader, "parts")
    reader.force_login(owner())
    assert "Enter a new part" in page(reader, "parts")


def test_nobody_reads_the_catalogue_without_signing_in(loaded: None, client: Client) -> None:
    response = client.get(reverse("catalogue:list", args=["parts"]))
    assert response.status_code == 302
    assert "sign-in" in response["Location"]


def test_a_sheet_that_is_not_there_is_not_found(reader: Client) -> None:
    assert reader.get("/catalogue/wishes/").status_code == 404
