"""Handing in a file of customers on the page: checked, looked at, then taken in."""

from __future__ import annotations

import io
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from openpyxl import load_workbook

from quotes.actions.import_customers import add_customers
from quotes.imports.cells import MOST_BYTES
from quotes.imports.customer_columns import COLUMNS
from quotes.imports.load_customers import check_customers, choices
from quotes.imports.template import template_workbook
from quotes.models import Customer, CustomerFile, Engine
from tests import cast as people
from tests.imports.customer_files import as_file, customer_only, line, saved
from tests.quotes.test_enquiry_pages import text_of

pytestmark = pytest.mark.usefixtures("loaded")
OLD = {"From": "2020-03-01", "To": "2020-10-10"}
"""Service that lies in the past on whatever day the tests run."""


@pytest.fixture
def desk(client: Client) -> Client:
    client.force_login(people.desk())
    return client


def hand_in(client: Client, content: bytes, name: str = "list.csv") -> Any:
    file = SimpleUploadedFile(name, content)
    return client.post(reverse("import-customers"), {"file": file})


def checked(client: Client, content: bytes) -> tuple[CustomerFile, Any]:
    """The kept file and the page that shows what it would add."""
    response = hand_in(client, content)
    assert response.status_code == 302, text_of(response)
    kept = CustomerFile.objects.get()
    return kept, client.get(reverse("import-check", args=[kept.pk]))


def take_in(client: Client, kept: CustomerFile, page: Any) -> Any:
    return client.post(reverse("import-check", args=[kept.pk]), {"plan": page.context["plan"]})


def test_a_file_is_checked_shown_and_taken_in(desk: Client) -> None:
    kept, page = checked(desk, as_file(line(**OLD), customer_only("Dov Marlish")))
    assert "2 customers, 1 engine and 1 stretch of service, from 2 lines." in text_of(page)
    assert not Customer.objects.exists()
    assert take_in(desk, kept, page).status_code == 302
    assert (Customer.objects.count(), Engine.objects.count()) == (2, 1)
    done = text_of(desk.get(reverse("import-check", args=[kept.pk])))
    assert "Added 2 customers, 1 engine and 1 stretch of service." in done


def test_pressing_twice_takes_in_once(desk: Client) -> None:
    kept, page = checked(desk, as_file(customer_only("Dov Marlish")))
    for _ in range(2):
        take_in(desk, kept, page)
    assert Customer.objects.count() == 1


def test_the_same_file_handed_in_again_has_nothing_to_take_in(desk: Client) -> None:
    content = as_file(line(**OLD))
    kept, page = checked(desk, content)
    take_in(desk, kept, page)
    hand_in(desk, content)
    again = CustomerFile.objects.filter(applied_at=None).get()
    page = desk.get(reverse("import-check", args=[again.pk]))
    assert "everything in its 1 line is in the records already" in text_of(page)
    assert "Take it all in" not in text_of(page)


def test_every_fault_is_on_the_page_and_nothing_can_be_taken_in(desk: Client) -> None:
    kept, page = checked(
        desk, as_file(line(**OLD, E_mail="x"), line(**OLD, Duty="speedway"), customer_only("Dov"))
    )
    said = text_of(page)
    assert "2 faults in 3 lines" in said
    assert "line 2, E-mail" in said
    assert "line 3, Duty" in said
    assert "one of endurance" in said
    assert "Take it all in" not in said
    assert take_in(desk, kept, page).status_code == 422
    assert not Customer.objects.exists()


def test_what_stands_in_a_cell_is_shown_as_text(desk: Client) -> None:
    _, page = checked(desk, as_file(customer_only("<script>alert(1)</script>", E_mail="<b>")))
    assert "<script>alert" not in page.content.decode()
    assert "&lt;b&gt;" in page.content.decode()


def test_records_that_changed_meanwhile_are_shown_again(desk: Client) -> None:
    kept, page = checked(desk, as_file(customer_only("Dov Marlish")))
    meanwhile = check_customers(as_file(customer_only("Dov Marlish")), timezone.localdate())
    add_customers(given=meanwhile.file.customers, expected=meanwhile.plan, now=timezone.now())
    response = take_in(desk, kept, page)
    assert response.status_code == 409
    assert "The records have changed since you looked." in text_of(response)
    assert Customer.objects.count() == 1


def test_the_file_of_somebody_else_is_not_there(desk: Client) -> None:
    kept, page = checked(desk, as_file(customer_only("Dov Marlish")))
    other = Client()
    other.force_login(people.owner())
    assert other.get(reverse("import-check", args=[kept.pk])).status_code == 404
    assert take_in(other, kept, page).status_code == 404
    other.post(reverse("import-drop", args=[kept.pk]))
    assert CustomerFile.objects.exists()


def test_a_file_is_thrown_away(desk: Client) -> None:
    kept, _ = checked(desk, as_file(customer_only("Dov Marlish")))
    desk.post(reverse("import-drop", args=[kept.pk]))
    assert not CustomerFile.objects.exists()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "The file is empty"),
        (b"%PDF-1.7" + bytes(100), "no text in a known encoding"),
        (b"x" * (MOST_BYTES + 1), "at most 2,000,000 are allowed"),
        (b"Name\nInes", "“Name” is not known"),
    ],
)
def test_a_file_that_can_not_be_read_says_so_at_the_field(desk: Client, content: bytes, said: str) -> None:
    response = hand_in(desk, content)
    assert response.status_code == 422
    assert said in response.context["form"].errors["file"][0]
    assert not CustomerFile.objects.exists()


def test_handing_in_nothing_says_what_is_needed(desk: Client) -> None:
    response = desk.post(reverse("import-customers"), {})
    assert response.status_code == 422
    assert "an XLSX workbook, or a CSV file" in response.context["form"].errors["file"][0]


def test_the_name_of_a_file_is_only_a_name(desk: Client) -> None:
    hand_in(desk, as_file(customer_only("Dov Marlish")), name="../../etc/" + "n" * 300 + ".csv")
    kept = CustomerFile.objects.get()
    assert "/" not in kept.name
    assert len(kept.name) <= 200


def test_the_template_is_read_back_once_it_is_filled_in(desk: Client) -> None:
    book = load_workbook(io.BytesIO(desk.get(reverse("import-template")).content))
    page = book["Customers"]
    for place, column in enumerate(COLUMNS, start=1):
        page.cell(2, place).value = column.example
    found = check_customers(saved(book), timezone.localdate())
    assert found.faults == ()
    assert (found.plan.new_customers, found.plan.new_engines, found.plan.new_segments) == (1, 1, 1)


def test_the_template_names_every_column_and_what_is_allowed() -> None:
    book = load_workbook(io.BytesIO(template_workbook(choices())))
    assert [cell.value for cell in book["Customers"][1]] == [column.heading for column in COLUMNS]
    told = {row[0]: row[1] for row in book["What is allowed"].iter_rows(min_row=2, values_only=True)}
    assert "four600 (600 inline four)" in str(told["Engine type"])


def queries(client: Client, content: bytes) -> int:
    hand_in(client, content)
    kept = CustomerFile.objects.latest("pk")
    client.get(reverse("import-check", args=[kept.pk]))
    with CaptureQueriesContext(connection) as caught:
        client.get(reverse("import-check", args=[kept.pk]))
    return len(caught)


def test_one_customer_and_twenty_cost_the_same_queries(desk: Client) -> None:
    one = queries(desk, as_file(line(**OLD)))
    lines = [line(**OLD, Customer=f"Rider {n}", E_mail=None, Engine_number=f"H4-{n}") for n in range(20)]
    assert queries(desk, as_file(*lines)) == one
