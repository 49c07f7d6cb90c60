"""The page of one entry: its values, where each came from, and what points at it."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalogue.actions.editing import Edit, change_entry
from catalogue.queries import current_rows
from catalogue.queries.shapes import SHAPES
from catalogue.views.sheets import SHEETS
from tests.cast import builder, owner
from tests.catalogue.conftest import NOW

# What the pages show of an entry; entries are written, read and counted on both in the other files.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]


@pytest.fixture
def reader(client: Client) -> Client:
    client.force_login(builder())
    return client


def text_of(client: Client, kind: str, code: str, **asked: str) -> str:
    """The words on the page, its tags taken out."""
    response = client.get(reverse("catalogue:entry", args=[kind, code]), asked)
    assert response.status_code == 200
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", response.content.decode())).split())


@pytest.mark.parametrize("kind", SHEETS)
def test_every_entry_has_a_page(loaded: None, reader: Client, kind: str) -> None:
    shape = SHAPES[kind]
    found = getattr(current_rows(), kind)
    for row in (*found[:3], found[-1]):
        assert text_of(reader, kind, shape.code_of(row))


def test_each_value_says_where_it_came_from(loaded: None, reader: Client) -> None:
    words = text_of(reader, "components", "rings")
    assert "Life on the track 4500 miles, from 2000 to 8000 published: Motocross retailer's note" in words
    assert "What wears it gas 0.35, dirt 0.25, inertia 0.2, heat 0.2 from memory" in words
    assert "S12" not in words


def test_a_part_names_its_offers(loaded: None, reader: Client) -> None:
    words = text_of(reader, "parts", "FOUR600-PISTON")
    assert "List price 92.00 USD common practice, no source; figures from memory" in words
    assert "Main parts wholesale 1 73.60 USD 1 1 yes 4 15" in words


def test_a_value_of_the_shop_s_own_says_so_and_what_was_shipped(loaded: None, reader: Client) -> None:
    edit = Edit("components", "rod_bolt", {"weibull_shape": 4.5}, 1, "our own log of 2026")
    change_entry(edit=edit, by=owner(), now=NOW)
    words = text_of(reader, "components", "rod_bolt")
    assert "Weibull shape 4.5 Your own. our own log of 2026. Orla Venn, 1 February 2027." in words
    assert "Shipped: 3.5; from memory (general wear-out shapes; replace with own history)." in words
    assert "Weibull shape 1 February 2027, 09:00 Orla Venn 3.5 4.5" in words


def test_what_points_at_a_component_is_named(loaded: None, reader: Client) -> None:
    words = text_of(reader, "components", "rod_bolt")
    assert "Events over-rev of 5 to 10 %, or not known how far , over-rev of more than 10 %" in words
    assert "Limits free length growth" in words
    assert "Tiers Mild build , Full power" in words


def test_an_operation_says_its_whole_hours(loaded: None, reader: Client) -> None:
    assert "650 parallel twin: 0.5 h" in text_of(reader, "operations", "valves_out")


def test_an_engine_type_says_what_it_has(loaded: None, reader: Client) -> None:
    words = text_of(reader, "engine_types", "four600")
    assert "63 components , 78 operations , 24 kinds of machine work , 97 parts" in words


def test_a_source_says_what_rests_on_it(loaded: None, reader: Client) -> None:
    words = text_of(reader, "sources", "S27")
    assert "Car owners' forum, fastener engineer: torque cycles" in words
    assert "Rests on it connecting rod bolts" in words


def test_a_limit_that_ships_is_a_default(loaded: None, reader: Client) -> None:
    assert "Default, not from your manual." in text_of(reader, "limits", "rod_clearance")
    change_entry(edit=Edit("limits", "rod_clearance", {"from_manual": True}, 1), by=owner(), now=NOW)
    words = text_of(reader, "limits", "rod_clearance")
    assert "Default, not from your manual." not in words
    assert "Stands from your manual" in words


def test_a_tier_reads_as_a_person_would_say_it(loaded: None, reader: Client) -> None:
    words = text_of(reader, "tiers", "mild", type="four600")
    assert "More power for club racing and track days with the life nearly kept." in words
    assert "Compression from 13 to 13.7 to 1" in words
    assert "Rev limit from 16,000 to 16,160 a minute" in words
    assert "What wears by revs, by pressure, by heat and by starts lasts 90 % as long." in words
    assert "valve spring (set per valve) 4,500 miles 4,050 miles" in words
    assert "The class must allow more compression, other cams, ported heads" in words
    assert "Left in on this engine. Rings, circlips and pistons are left out as in refresh" in words


def test_a_tier_reads_for_each_engine_type(loaded: None, reader: Client) -> None:
    assert "race rod kit" in text_of(reader, "tiers", "full", type="single450")
    assert "race rod kit" not in text_of(reader, "tiers", "full", type="four600").split("All figures")[0]
    assert "On the 450 single" in text_of(reader, "tiers", "full", type="nonsense")


@pytest.mark.both_databases
def test_a_page_costs_the_same_for_a_short_entry_and_a_long_one(loaded: None, reader: Client) -> None:
    current_rows()
    counted = []
    for code in ("coolant", "con_rod"):
        with CaptureQueriesContext(connection) as queries:
            text_of(reader, "components", code)
        counted.append(len(queries))
    assert counted[0] == counted[1] <= 10


def test_only_the_owner_is_offered_to_change_it(loaded: None, reader: Client) -> None:
    assert "The owner can change this." in text_of(reader, "components", "rings")
    reader.force_login(owner())
    assert "Change this component" in text_of(reader, "components", "rings")


@pytest.mark.parametrize(("kind", "code"), [("parts", "nothing"), ("tiers", "extreme"), ("wishes", "rings")])
def test_what_is_not_there_is_not_found(loaded: None, reader: Client, kind: str, code: str) -> None:
    assert reader.get(f"/catalogue/{kind}/{code}/").status_code == 404


def test_an_empty_catalogue_has_no_entries(reader: Client) -> None:
    assert reader.get(reverse("catalogue:entry", args=["parts", "any"])).status_code == 404
