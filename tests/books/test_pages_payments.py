"""Taking a payment at the desk, its receipt, paying back and taking back."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from quotes.actions.books import receipts
from quotes.models import Acceptance, Invoice, OpenItem, Payment
from quotes.queries.books.deposits import held_by_receipt
from tests.books import cast
from tests.books.page_forms import text_of, typed
from tests.cast import builder
from tests.quotes.cast import customer

NEW = "payment-new"
TODAY = timezone.localdate


@pytest.fixture
def invoiced(build: Acceptance) -> Invoice:
    return cast.invoiced(build)


def form_for(client: Client, invoice: Invoice) -> Any:
    return client.get(reverse(NEW), {"invoice": invoice.pk})


def taken(client: Client, invoice: Invoice, **change: Any) -> Any:
    page = form_for(client, invoice)
    return client.post(reverse(NEW), typed(page, **({"method": "cash"} | change)))


def left(invoice: Invoice) -> Decimal:
    return OpenItem.objects.get(invoice=invoice).open_amount


def test_the_desk_takes_what_is_open_with_one_pick_and_one_press(at_desk: Client, invoiced: Invoice) -> None:
    page = form_for(at_desk, invoiced)
    assert 'value="3186.48"' in page.content.decode()

    answer = at_desk.post(reverse(NEW), typed(page, method="card"))

    payment = Payment.objects.get()
    assert answer["Location"] == reverse("payment", args=[payment.pk])
    assert (payment.amount, payment.method, left(invoiced)) == (Decimal("3186.48"), "card", Decimal(0))
    shown = at_desk.get(answer["Location"])
    assert "Marel Otten has paid €3,186.48." in text_of(shown)
    assert reverse("payment-receipt", args=[payment.pk]) in shown.content.decode()


def test_pressed_twice_it_is_taken_once(at_desk: Client, invoiced: Invoice) -> None:
    sent = typed(form_for(at_desk, invoiced), method="cash")

    first, again = at_desk.post(reverse(NEW), sent), at_desk.post(reverse(NEW), sent)

    assert first["Location"] == again["Location"]
    assert Payment.objects.count() == 1


def test_two_forms_are_two_payments(at_desk: Client, invoiced: Invoice) -> None:
    taken(at_desk, invoiced, amount="100")
    taken(at_desk, invoiced, amount="100")

    assert left(invoiced) == Decimal("2986.48")


@pytest.mark.both_databases
@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("amount", "0", "“0” is not a sum above 0, with at most 2 decimals."),
        ("amount", "-5", "“-5” is not a sum above 0, with at most 2 decimals."),
        ("amount", "1.005", "“1.005” is not a sum above 0, with at most 2 decimals."),
        ("amount", "", "Nothing is given: a sum above 0, with at most 2 decimals is needed."),
        ("method", "", "Nothing is picked: choose one of the list."),
        ("method", "shells", "“shells” is not one of: cash, card, transfer, cheque."),
        ("on", "", "Nothing is given: a day is needed."),
        ("customer", "Nobody Here", "“Nobody Here” is nobody in our book: pick one of the list."),
        ("reference", "a\x00b", "holds a character that can't be kept"),
    ],
)
def test_a_fault_stands_at_its_field_and_nothing_is_taken(
    at_desk: Client, invoiced: Invoice, field: str, value: str, said: str
) -> None:
    page = taken(at_desk, invoiced, **{field: value})

    assert page.status_code == 200
    assert said in text_of(page)
    assert f'<a href="#id_{field}' in page.content.decode()
    assert not Payment.objects.exists()


def test_a_day_that_has_not_come_is_refused(at_desk: Client, invoiced: Invoice) -> None:
    tomorrow = (TODAY() + timedelta(days=1)).isoformat()

    assert f"“{tomorrow}” has not come yet" in text_of(taken(at_desk, invoiced, on=tomorrow))


def test_two_customers_of_one_name_are_told_apart_by_telephone(at_desk: Client, invoiced: Invoice) -> None:
    other = customer("Marel Otten", telephone="000 555 0777")

    asked = taken(at_desk, invoiced, customer="Marel Otten")
    assert "may be Marel Otten, 000 555 0199; Marel Otten, 000 555 0777" in text_of(asked)
    taken(at_desk, invoiced, customer="Marel Otten, 000 555 0777", use="oldest")

    assert Payment.objects.get().customer == other


def test_without_an_address_the_customer_is_typed_and_what_they_owe_is_shown(
    at_desk: Client, invoiced: Invoice
) -> None:
    page = at_desk.get(reverse(NEW))
    shown = at_desk.post(reverse(NEW), typed(page, customer="marel", do="open"))

    assert invoiced.number in text_of(shown)
    assert 'value="3186.48"' in shown.content.decode()
    assert not Payment.objects.exists()
    at_desk.post(reverse(NEW), typed(shown, method="cash"))
    assert left(invoiced) == 0


@pytest.fixture
def two(db: None) -> tuple[Invoice, Invoice]:
    """Two invoices of one customer."""
    return cast.invoiced(cast.build("E-1")), cast.invoiced(cast.build("E-2"))


def test_from_an_invoice_that_one_is_settled_and_not_the_oldest(
    at_desk: Client, two: tuple[Invoice, Invoice]
) -> None:
    taken(at_desk, two[1])

    assert (left(two[0]), left(two[1])) == (Decimal("3186.48"), Decimal(0))


def test_a_part_payment_from_an_invoice_goes_to_that_one(
    at_desk: Client, two: tuple[Invoice, Invoice]
) -> None:
    taken(at_desk, two[1], amount="200")

    assert (left(two[0]), left(two[1])) == (Decimal("3186.48"), Decimal("2986.48"))


def test_a_payment_is_spread_as_it_is_written_in(at_desk: Client, two: tuple[Invoice, Invoice]) -> None:
    items = [OpenItem.objects.get(invoice=each).pk for each in two]
    spread = {f"item_{items[0]}": "100", f"item_{items[1]}": "250"}

    taken(at_desk, two[0], amount="400", use="chosen", **spread)

    assert [left(each) for each in two] == [Decimal("3086.48"), Decimal("2936.48")]
    shown = text_of(at_desk.get(reverse("payment", args=[Payment.objects.get().pk])))
    assert "€50.00 are not used yet" in shown


def test_more_than_is_open_or_than_was_paid_can_not_be_written_in(
    at_desk: Client, two: tuple[Invoice, Invoice]
) -> None:
    items = [OpenItem.objects.get(invoice=each).pk for each in two]

    page = taken(at_desk, two[0], amount="9000", use="chosen", **{f"item_{items[0]}": "5000"})
    assert f"“5000” is more than 3186.48, which is open on {two[0].number}." in text_of(page)
    spread = {f"item_{items[0]}": "60", f"item_{items[1]}": "40"}
    page = taken(at_desk, two[0], amount="50", use="chosen", **spread)
    assert "“50” is less than 100, which is written in below." in text_of(page)

    assert not Payment.objects.exists()


@pytest.mark.parametrize("key", ["99999", "x", "999999999999999999999"])
def test_an_address_that_names_nothing_takes_nothing_from_anybody(at_desk: Client, key: str) -> None:
    cast.vat_shop()

    assert at_desk.get(reverse(NEW), {"invoice": key}).status_code in (200, 404)


def test_a_deposit_by_receipt_is_held_for_its_build(at_desk: Client, build: Acceptance) -> None:
    address = f"{reverse(NEW)}?build={build.pk}"
    page = at_desk.get(address)
    assert 'value="1593.24"' in page.content.decode()

    answer = at_desk.post(address, typed(page, method="cash"))

    assert held_by_receipt(build) == Decimal("1593.24")
    assert "It is held for Q-2026-0001" in text_of(at_desk.get(answer["Location"]))


def test_a_deposit_is_paid_back_and_not_more_than_is_held(at_desk: Client, build: Acceptance) -> None:
    address = f"{reverse(NEW)}?build={build.pk}"
    at_desk.post(address, typed(at_desk.get(address), method="cash"))
    back = reverse("deposit-back", args=[Payment.objects.get().pk])

    page = at_desk.get(back)
    refused = at_desk.post(back, typed(page, amount="2000", method="cash"))
    assert "“2000” is more than 1593.24, which is owed back." in text_of(refused)
    at_desk.post(back, typed(page, method="transfer"))

    assert held_by_receipt(build) == 0


def test_what_was_paid_too_much_is_paid_back_once(at_desk: Client, invoiced: Invoice) -> None:
    taken(at_desk, invoiced, amount="3200", use="oldest")
    payment = Payment.objects.get()
    back = reverse("payment-back", args=[OpenItem.objects.get(payment=payment).pk])
    sent = typed(at_desk.get(back), method="cash")
    assert sent["amount"] == ["13.52"]

    first, again = at_desk.post(back, sent), at_desk.post(back, sent)

    assert Payment.objects.filter(kind="refund").count() == 1
    assert first.status_code == 302
    assert again.status_code in (200, 302)


def test_nothing_owed_back_says_so(at_desk: Client, invoiced: Invoice) -> None:
    page = at_desk.get(reverse("payment-back", args=[OpenItem.objects.get(invoice=invoiced).pk]))

    assert "Nothing is owed back" in text_of(page)


def test_a_cheque_that_bounced_is_taken_back_and_its_invoice_is_open_again(
    at_desk: Client, invoiced: Invoice
) -> None:
    taken(at_desk, invoiced, method="cheque")
    payment = Payment.objects.get()
    address = reverse("payment-take-back", args=[payment.pk])
    page = at_desk.get(reverse("payment", args=[payment.pk]))

    silent = at_desk.post(address, typed(page, "take-back/", back__note=""))
    assert "Nothing is given: such as, the cheque bounced." in text_of(silent)
    assert left(invoiced) == 0
    at_desk.post(address, typed(page, "take-back/", back__note="The bank sent it back"))

    assert left(invoiced) == Decimal("3186.48")
    shown = text_of(at_desk.get(reverse("payment", args=[payment.pk])))
    assert "The bank sent it back" in shown
    assert "Take back For a payment" not in shown


def test_the_receipt_is_drawn_once_and_served_as_it_was_kept(
    at_desk: Client, invoiced: Invoice, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn: list[Any] = []

    def pdf(value: Any) -> bytes:
        drawn.append(value)
        return b"%PDF a receipt"

    monkeypatch.setattr(receipts, "drawn_receipt", pdf)
    taken(at_desk, invoiced, amount="1000")
    address = reverse("payment-receipt", args=[Payment.objects.get().pk])

    first, again = at_desk.get(address), at_desk.get(address)

    assert first.content == again.content == b"%PDF a receipt"
    assert first["Content-Type"] == "application/pdf"
    assert first["ETag"] == again["ETag"]
    [value] = drawn
    assert [(each.number, each.amount, each.left) for each in value.settled] == [
        (invoiced.number, Decimal(1000), Decimal("2186.48"))
    ]


def test_a_builder_takes_no_money(client: Client, invoiced: Invoice) -> None:
    client.force_login(builder())
    item = OpenItem.objects.get(invoice=invoiced)

    for address in (reverse(NEW), reverse("payment-list"), reverse("payment-back", args=[item.pk])):
        assert client.get(address).status_code == 403


def test_the_receipt_on_paper_says_who_paid_what_for_which_document(
    at_desk: Client, invoiced: Invoice
) -> None:
    from io import BytesIO

    from pypdf import PdfReader

    taken(at_desk, invoiced, amount="1000")
    payment = Payment.objects.get()

    paper = at_desk.get(reverse("payment-receipt", args=[payment.pk])).content
    said = " ".join(PdfReader(BytesIO(paper)).pages[0].extract_text().split())

    for words in (payment.number, "Marel Otten", "1,000.00", invoiced.number, "2,186.48"):
        assert words in said


def test_on_a_german_page_a_comma_is_read_and_what_is_ambiguous_refused(
    at_desk: Client, invoiced: Invoice
) -> None:
    at_desk.cookies["django_language"] = "de"

    refused = text_of(taken(at_desk, invoiced, amount="1.234"))
    taken(at_desk, invoiced, amount="1.234,50")

    assert "1234" in refused
    assert "1,234" in refused
    assert Payment.objects.get().amount == Decimal("1234.50")
