"""Bank files on their pages: read, looked at, taken in, matched, taken as payments, put aside."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.models import Acceptance, BankFile, BankLine, Customer, Invoice, OpenItem, Payment
from tests.books.books_pages import browser, day, invoiced
from tests.books.ledger_cast import paid
from tests.books.page_forms import form_of, text_of
from tests.quotes.cast import customer

HEAD = "Booking date,Amount,Name,Reference\n"


def line(amount: str, payer: str = "Marel Otten", text: str = "thanks", days: int = 1) -> str:
    return f"{day(days).isoformat()},{amount},{payer},{text}\n"


def handed_in(*lines: str, head: str = HEAD) -> Any:
    """The page on which a file that was handed in is looked at."""
    file = SimpleUploadedFile("november.csv", (head + "".join(lines)).encode())
    return browser().post(reverse("bank-new"), {"file": file}, follow=True)


def taken_in(*lines: str) -> Any:
    """The page of its lines, once they are taken in."""
    looked = handed_in(*lines)
    return browser().post(_address("bank-enter"), form_of(looked, "enter/"), follow=True)


def _address(name: str) -> str:
    return reverse(name, args=[BankFile.objects.latest("pk").pk])


def left(invoice: Invoice) -> Decimal:
    return OpenItem.objects.get(invoice=invoice).open_amount


@pytest.fixture
def invoice(build: Acceptance) -> Invoice:
    return invoiced(build)


def test_a_file_is_shown_as_read_before_anything_is_kept_of_it(invoice: Invoice) -> None:
    page = text_of(handed_in(line("3186.48", text=invoice.number)))

    assert "1 new line." in page
    assert "3,186.48" in page
    assert not BankLine.objects.exists()


def test_a_sure_line_is_ticked_and_becomes_the_payment_that_settles_its_invoice(invoice: Invoice) -> None:
    page = taken_in(line("3186.48", text=f"Invoice {invoice.number}"))
    assert "sure" in text_of(page)

    browser().post(_address("bank-take"), form_of(page, "take/"))

    assert Payment.objects.get().amount == Decimal("3186.48")
    assert left(invoice) == 0


def test_taking_twice_takes_one_payment(invoice: Invoice) -> None:
    sent = form_of(taken_in(line("3186.48", text=invoice.number)), "take/")

    for _ in range(2):
        browser().post(_address("bank-take"), sent)

    assert Payment.objects.count() == 1


def test_a_likely_line_is_left_to_be_ticked(invoice: Invoice) -> None:
    page = taken_in(line("1000", text=invoice.number))

    assert "likely" in text_of(page)
    assert "take" not in form_of(page, "take/")


def test_a_line_without_a_match_is_taken_for_the_customer_who_is_typed_in(invoice: Invoice) -> None:
    page = taken_in(line("500", payer="A friend", text="for the engine"))
    row = BankLine.objects.get()

    sent = form_of(page, "take/") | {"take": [str(row.pk)], f"payer-{row.pk}": "Marel Otten"}
    browser().post(_address("bank-take"), sent)

    assert left(invoice) == Decimal("2686.48")


def test_a_payer_whom_nobody_knows_is_told_at_the_line_and_stays_typed(invoice: Invoice) -> None:
    page = taken_in(line("500", payer="A friend", text="for the engine"))
    row = BankLine.objects.get()

    sent = form_of(page, "take/") | {"take": [str(row.pk)], f"payer-{row.pk}": "Nobody"}
    answer = browser().post(_address("bank-take"), sent)

    assert "“Nobody” is nobody in our book" in text_of(answer)
    assert 'value="Nobody"' in answer.content.decode()
    assert not Payment.objects.exists()


def test_what_is_taken_is_what_was_looked_at(invoice: Invoice) -> None:
    sent = form_of(taken_in(line("3186.48", text=invoice.number)), "take/")
    paid("100")

    answer = browser().post(_address("bank-take"), sent)

    assert "The accounts have moved since you looked" in text_of(answer)
    assert Payment.objects.count() == 1


def test_a_press_without_a_tick_says_so(invoice: Invoice) -> None:
    sent = form_of(taken_in(line("1000", text=invoice.number)), "take/")

    answer = browser().post(_address("bank-take"), sent)

    assert "No line is ticked" in text_of(answer)


def test_lines_are_put_aside_with_a_reason_and_wait_again_when_asked(invoice: Invoice) -> None:
    page = taken_in(line("-180", payer="Halden Grinding", text="G-3377"))
    row = BankLine.objects.get()
    sent = form_of(page, "take/") | {"take": [str(row.pk)]}

    told = browser().post(_address("bank-aside"), sent | {"note": ""})
    assert 'id="id_note_error">Nothing is given.' in told.content.decode()

    aside = browser().post(_address("bank-aside"), sent | {"note": "A supplier"}, follow=True)
    assert "No line waits." in text_of(aside)

    browser().post(reverse("bank-wait", args=[row.file_id, row.pk]))
    row.refresh_from_db()
    assert row.state == "waiting"


def test_columns_that_are_not_found_out_are_chosen(invoice: Invoice) -> None:
    page = handed_in(
        f"{day(1).isoformat()};{day(2).isoformat()};12.50;7.00;x\n", head="One;Two;Three;Four;Five\n"
    )
    assert "Choose the column" in text_of(page)

    sent = form_of(page, "read/") | {"date": "1", "amount": "2", "payer": "4"}
    page = browser().post(_address("bank-read"), sent, follow=True)

    assert "1 new line." in text_of(page)
    assert "12.50" in text_of(page)


def test_one_column_for_two_things_is_told_at_the_field(invoice: Invoice) -> None:
    sent = form_of(handed_in(line("10")), "read/") | {"payer": "3", "text": "3"}

    answer = browser().post(_address("bank-read"), sent)

    assert "One column can't be two things" in text_of(answer)


def test_a_line_that_stands_twice_is_taken_in_only_when_confirmed(invoice: Invoice) -> None:
    page = handed_in(line("10"), line("10"))
    assert "May be one payment twice." in text_of(page)

    told = browser().post(_address("bank-enter"), form_of(page, "enter/"))
    assert "confirm that each is a payment of its own" in text_of(told)
    assert not BankLine.objects.exists()

    browser().post(_address("bank-enter"), form_of(page, "enter/") | {"confirmed": ["3"]})
    assert BankLine.objects.count() == 2


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "The file is empty."),
        (b"PK\x03\x04 a workbook", "Allowed is a CSV file"),
        (b'Date,Sum\n2026-01-02,"12', "The file is cut off"),
    ],
)
def test_a_file_that_is_no_statement_is_told_and_not_kept(
    build: Acceptance, content: bytes, said: str
) -> None:
    file = SimpleUploadedFile("november.csv", content)

    answer = browser().post(reverse("bank-new"), {"file": file})

    assert said in text_of(answer)
    assert not BankFile.objects.exists()


def test_a_file_can_be_thrown_away_until_it_is_taken_in(build: Acceptance) -> None:
    handed_in(line("10"))
    browser().post(_address("bank-drop"))
    assert not BankFile.objects.exists()

    taken_in(line("10"))
    answer = browser().post(_address("bank-drop"), follow=True)

    assert "were taken in already" in text_of(answer)


@pytest.mark.parametrize("count", [1, 20])
def test_one_file_or_line_and_twenty_cost_the_same_queries(
    invoice: Invoice, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    taken_in(*(line(str(100 + index), text=f"part {index}") for index in range(count)))
    client = browser()
    with django_assert_num_queries(12):
        client.get(_address("bank-file"))
    with django_assert_num_queries(7):
        client.get(reverse("bank-list"))


def test_two_customers_of_one_name_are_told_apart(invoice: Invoice) -> None:
    customer("Marel Otten", telephone="555 7")
    page = taken_in(line("500", payer="A friend", text="for the engine"))
    row = BankLine.objects.get()

    sent = form_of(page, "take/") | {"take": [str(row.pk)], f"payer-{row.pk}": "Marel Otten"}
    answer = browser().post(_address("bank-take"), sent)

    assert "type the telephone number too" in text_of(answer)
    assert Customer.objects.filter(name="Marel Otten").count() == 2


def test_what_is_open_is_said_in_whole_coins(invoice: Invoice) -> None:
    page = text_of(taken_in(line("1000", text=invoice.number)))

    assert f"Names {invoice.number}: a part of the 3186.48 that is open." in page
