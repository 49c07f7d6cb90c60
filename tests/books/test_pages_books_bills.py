"""Suppliers' bills on their pages: typed in, taken in from a file, paid, taken back."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.models import Acceptance, SupplierBill
from tests.books.books_pages import bill, browser, day
from tests.books.page_forms import form_of, text_of, typed

HEAD = "Supplier,Number,Date,To pay by,What for,In words,Build,Before tax,Tax\n"
SOUND = "Fenwright Parts,9100,2026-01-20,2026-02-20,parts,Piston set,Q-2026-0001,412.00,82.40\n"


def sent(**change: str) -> dict[str, Any]:
    """The form as a browser sends it, filled in with a bill of 412 and 82.40 of tax for the build."""
    told = {
        "bill__supplier": "Fenwright Parts",
        "bill__supplier_number": "8841",
        "bill__on": day(3).isoformat(),
        "bill__due_on": day(-20).isoformat(),
        "bill__tax": "82.40",
        "bill__gross": "494.40",
        "line__0__description": "Piston set",
        "line__0__build": "q-2026-0001",
        "line__0__net": "412",
        "more": None,
    }
    return typed(browser().get(reverse("bill-new")), "", **(told | change))


def enter(**change: str) -> Any:
    return browser().post(reverse("bill-new"), sent(**change))


def test_a_bill_is_entered_with_its_line_for_a_build(build: Acceptance) -> None:
    answer = enter()

    row = SupplierBill.objects.get()
    assert answer["Location"] == reverse("bill", args=[row.pk])
    assert (row.net, row.tax, row.gross) == (Decimal("412"), Decimal("82.40"), Decimal("494.40"))
    assert row.lines.get().build == build


@pytest.mark.parametrize(
    ("change", "place", "said"),
    [
        ({"bill__supplier_number": ""}, "bill-supplier_number", "Nothing is given."),
        ({"bill__on": "3 May"}, "bill-on", "“3 May” is not a day"),
        ({"bill__due_on": "1999-01-01"}, "bill-due_on", "is before the bill's own date"),
        ({"bill__on": day(-9).isoformat(), "bill__due_on": ""}, "bill-on", "is still to come"),
        ({"bill__tax": "some"}, "bill-tax", "“some” is not a number"),
        (
            {"bill__gross": "500"},
            "bill-gross",
            "“500” is not what the lines, 412, and the tax, 82.4",
        ),
        ({"line__0__net": "1,2"}, "line-0-net", "“1,2” is not a number"),
        ({"line__0__description": ""}, "line-0-description", "what was bought, in a few words"),
        ({"line__0__build": "Q-9"}, "line-0-build", "“Q-9” is no accepted quote"),
        ({"line__0__kind": "overhead"}, "line-0-build", "overheads belong to no build"),
    ],
)
def test_a_fault_stands_at_its_field_and_what_was_typed_stays(
    build: Acceptance, change: dict[str, str], place: str, said: str
) -> None:
    answer = enter(**change)

    page = answer.content.decode().replace("&#x27;", "'")
    fault = page.partition(f'id="id_{place}_error">')[2].partition("</p>")[0]
    assert said in fault
    assert 'value="Piston set"' in page or "line__0__description" in change
    assert not SupplierBill.objects.exists()


def test_a_bill_without_lines_is_told_at_the_head(build: Acceptance) -> None:
    answer = enter(line__0__description="", line__0__build="", line__0__net="")

    assert "a bill has at least one" in text_of(answer)


def test_the_same_number_of_a_supplier_is_entered_once(build: Acceptance) -> None:
    enter()

    answer = enter()

    assert "is in the books already, as S-" in text_of(answer)
    assert SupplierBill.objects.count() == 1


def test_more_rows_keep_what_was_typed(build: Acceptance) -> None:
    answer = browser().post(reverse("bill-new"), sent() | {"more": "line"})

    page = answer.content.decode()
    assert 'value="Piston set"' in page
    assert 'name="line-12-net"' in page
    assert "Nothing was entered" not in page


def test_a_bill_is_paid_in_full_and_then_offers_no_second_payment(build: Acceptance) -> None:
    row = bill(due=2)
    assert "overdue" in text_of(browser().get(reverse("bill", args=[row.pk])))

    browser().post(reverse("bill-pay", args=[row.pk]), {"on": day().isoformat(), "method": "transfer"})

    page = browser().get(reverse("bill", args=[row.pk]))
    assert "Paid on" in text_of(page)
    assert reverse("bill-pay", args=[row.pk]) not in page.content.decode()


def test_a_bill_that_is_taken_back_names_the_other(build: Acceptance) -> None:
    row = bill()

    browser().post(reverse("bill-reverse", args=[row.pk]), {"on": day().isoformat(), "note": "Entered twice"})

    other = SupplierBill.objects.get(reverses=row)
    assert f"Taken back by {other.number}" in text_of(browser().get(reverse("bill", args=[row.pk])))


def test_taking_back_asks_why(build: Acceptance) -> None:
    row = bill()

    answer = browser().post(reverse("bill-reverse", args=[row.pk]), {"on": day().isoformat(), "note": ""})

    assert 'id="id_note_error">Nothing is given.' in answer.content.decode()
    assert not SupplierBill.objects.filter(reverses=row).exists()


def looked_at(text: str) -> Any:
    file = SimpleUploadedFile("bills.csv", text.encode())
    return browser().post(reverse("bill-import"), {"file": file})


def test_a_file_is_shown_first_and_entered_by_a_second_press(build: Acceptance) -> None:
    looked = looked_at(HEAD + SOUND + SOUND.replace("Piston set,Q-2026-0001", "Parcel,"))
    assert "1 bill, from 2 lines." in text_of(looked)
    assert not SupplierBill.objects.exists()

    browser().post(reverse("bill-import-take"), form_of(looked, "take/"))

    row = SupplierBill.objects.get()
    assert (row.gross, row.lines.count()) == (Decimal("988.80"), 2)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (SOUND.replace("412.00", "4x2"), "line 2, Before tax “4x2” is no sum"),
        (SOUND.replace("2026-01-20", "20.1.26"), "line 2, Date “20.1.26” is no date"),
        (SOUND.replace("Q-2026-0001", "Q-9"), "line 2, Build “Q-9” is not known"),
        (SOUND.replace("parts,Piston", "tools,Piston"), "line 2, What for “tools” is not known"),
        (SOUND.replace("2026-02-20", "2025-12-20"), "is before the bill's date"),
        (SOUND + SOUND.replace("2026-01-20", "2026-01-21"), "line 3, Date “2026-01-21” differs from line 2"),
        (SOUND.replace("Piston set", ""), "line 2, In words nothing is blank"),
    ],
)
def test_a_fault_of_a_file_names_its_line_and_column(build: Acceptance, line: str, said: str) -> None:
    page = text_of(looked_at(HEAD + line))

    assert said in page
    assert "Nothing can be entered" in page


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "The file is empty."),
        ("Supplier,Price\nA,1\n", "“Price” is not known; “Number” is missing"),
        (HEAD, "There is no bill in the file"),
    ],
)
def test_a_file_that_holds_no_bills_is_told(build: Acceptance, text: str, said: str) -> None:
    assert said in text_of(looked_at(text))


def test_a_bill_that_is_known_is_not_entered_again_by_a_file(build: Acceptance) -> None:
    one, other = looked_at(HEAD + SOUND), looked_at(HEAD + SOUND)
    browser().post(reverse("bill-import-take"), form_of(one, "take/"))

    again = browser().post(reverse("bill-import-take"), form_of(other, "take/"))

    assert "is in the books as S-" in text_of(again)
    assert SupplierBill.objects.count() == 1


def test_a_file_that_was_tampered_with_on_its_way_is_not_entered(build: Acceptance) -> None:
    answer = browser().post(reverse("bill-import-take"), {"carried": "anything"}, follow=True)

    assert "did not come along whole" in text_of(answer)


@pytest.mark.parametrize("count", [1, 20])
def test_one_bill_and_twenty_cost_the_same_queries(
    build: Acceptance, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for index in range(count):
        bill(f"N-{index}", build=build)
    client = browser()
    with django_assert_num_queries(7):
        client.get(reverse("bill-list"))
