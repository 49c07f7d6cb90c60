"""The owner reads who changed what; nobody else does."""

from __future__ import annotations

import csv
import io
import json

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from quotes.actions.audit.bulk import tell_emptied
from quotes.actions.audit.who import a_person, acting_as
from quotes.calc.record.chain import ChainEntry, Head, chain_faults
from quotes.models import Customer, LabourRate
from tests.audit.written import written
from tests.cast import desk, owner
from tests.quotes import cast

pytestmark = pytest.mark.django_db
CHANGES = reverse("changes")


def signed_in(client: Client) -> Client:
    client.force_login(owner())
    return client


def changed(name: str = "Marel Otten") -> Customer:
    """A customer whose address became another, by the desk."""
    with acting_as(lambda: a_person(desk())):
        row = cast.customer(name, address="Mill Lane 4")
        row.address = "Harbour Road 9"
        row.save()
    written()
    return row


def words(client: Client, address: str, **asked: str) -> str:
    page = client.get(address, asked)
    assert page.status_code == 200
    return " ".join(page.content.decode().replace("&nbsp;", " ").split())


def test_the_history_of_a_customer_says_who_and_from_what_to_what(client: Client) -> None:
    row = changed()
    page = words(signed_in(client), reverse("record-changes", args=["quotes.customer", row.pk]))
    assert "Mill Lane 4 <span>became</span> <b>Harbour Road 9</b>" in page
    assert "Dessa Quill" in page
    assert "History of customer Marel Otten" in page


def test_that_all_rows_went_can_be_read(client: Client) -> None:
    tell_emptied("the sample data was taken out")
    written()
    assert "All rows the sample data was taken out" in words(signed_in(client), CHANGES)


def test_it_is_reached_from_the_customers_page(client: Client) -> None:
    row = changed()
    address = reverse("record-changes", args=["quotes.customer", row.pk])
    assert f'href="{address}"' in words(signed_in(client), reverse("customer", args=[row.pk]))
    client.force_login(desk())
    assert address not in words(client, reverse("customer", args=[row.pk]))


def test_a_sum_is_said_in_the_workshops_currency(client: Client) -> None:
    cast.workshop(currency="EUR")
    LabourRate.objects.all().delete()
    LabourRate.objects.create(kind="engine", per_hour="98.50")
    written()
    assert "€98.50" in words(signed_in(client), CHANGES, record="quotes.labourrate")


def test_others_are_refused(client: Client) -> None:
    row = changed()
    client.force_login(desk())
    assert client.get(CHANGES).status_code == 403
    assert client.get(reverse("record-changes", args=["quotes.customer", row.pk])).status_code == 403


def test_all_changes_are_narrowed_by_who_and_day(client: Client) -> None:
    changed()
    signed_in(client)
    assert "Harbour Road" in words(client, CHANGES, who=str(desk().pk))
    assert "Nothing fits." in words(client, CHANGES, who="customer")
    assert "Nothing fits." in words(client, CHANGES, last="2020-01-01")
    assert "is not a day, such as" in words(client, CHANGES, first="soon")


def test_a_file_of_changes_runs_nothing_in_a_spreadsheet(client: Client) -> None:
    changed("=2+5")
    page = signed_in(client).get(CHANGES, {"as": "csv", "record": "quotes.customer"})
    rows = list(csv.DictReader(io.StringIO(page.content.decode("utf-8-sig"))))
    assert ("'=2+5", "address", "Mill Lane 4", "Harbour Road 9") in [
        (row["Called"], row["Field"], row["Before"], row["After"]) for row in rows
    ]


def test_lines_for_a_machine_hold_all_that_the_hashes_are_made_of(client: Client) -> None:
    changed()
    page = signed_in(client).get(CHANGES, {"as": "jsonl"})
    read = [json.loads(line) for line in page.getvalue().decode().splitlines()]
    rows = [(ChainEntry(**{name: one[name] for name in ChainEntry.__slots__}), one["told"]) for one in read]
    last = Head(rows[-1][0].number, rows[-1][0].hash)
    assert [str(fault) for found in chain_faults(rows, last) for fault in found] == []


def test_a_page_of_many_asks_no_more_than_one_of_few(client: Client) -> None:
    signed_in(client)
    written()
    asked = []
    for many in (1, 20):
        for number in range(many):
            cast.engine(cast.customer(f"Rider {many}.{number}"), f"H4-{many}{number:03}")
        written()
        with CaptureQueriesContext(connection) as seen:
            client.get(CHANGES)
        asked.append(len(seen))
    assert asked[0] == asked[1]


def test_nothing_is_told_of_what_is_no_record(client: Client) -> None:
    address = reverse("record-changes", args=["sessions.session", "x"])
    assert signed_in(client).get(address).status_code == 404
