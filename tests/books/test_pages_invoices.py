"""The list of invoices and the page of one: states, narrowing, files as stored, who may open what."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.books.drafts import drop_invoice_draft
from quotes.actions.books.payments import take_payment
from quotes.actions.books.write_off import write_off
from quotes.models import Acceptance, Invoice, OpenItem, WriteOff
from tests.books import cast
from tests.books.page_forms import text_of, typed
from tests.cast import books, builder, desk, owner

NOW = timezone.now()
LONG_AGO = NOW - timedelta(days=60)


@pytest.fixture
def by_owner(client: Client, db: None) -> Client:
    client.force_login(owner())
    return client


def pay(invoice: Invoice, amount: Decimal, key: str = "a key") -> None:
    item = OpenItem.objects.get(invoice=invoice)
    take_payment(
        customer=item.customer,
        on=timezone.localdate(NOW),
        amount=amount,
        method="cash",
        key=key,
        allocate={item.pk: min(amount, item.open_amount)},
        by=desk(),
        now=NOW,
    )


def states(client: Client, **asked: str) -> dict[str, str]:
    """Number to state of what the list shows."""
    table = client.get(reverse("invoice-list"), asked).context["table"]
    return {row.get_cell_value("number"): row.get_cell_value("place") for row in table.rows}


def test_an_empty_list_says_what_to_do_first(at_desk: Client, workshop_only: None) -> None:
    page = at_desk.get(reverse("invoice-list"))

    assert "No invoices yet." in text_of(page)
    assert f'href="{reverse("quote-list")}?state=accepted"' in page.content.decode()


@pytest.fixture
def workshop_only(db: None) -> None:
    cast.vat_shop()


def test_a_draft_and_an_issued_document_stand_in_one_list(at_desk: Client, build: Acceptance) -> None:
    deposit = cast.deposited(build, now=timezone.now())
    draft = cast.drafted(build)

    assert states(at_desk) == {f"draft {draft.pk}": "draft", deposit.number: "to pay"}


def test_a_dropped_draft_is_gone_from_the_list(at_desk: Client, build: Acceptance) -> None:
    drop_invoice_draft(draft=cast.drafted(build), by=books(), now=NOW)

    assert states(at_desk) == {}


def test_what_is_past_its_day_is_overdue(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build, now=LONG_AGO)

    assert states(at_desk) == {made.number: "overdue"}


@pytest.mark.parametrize(("amount", "word"), [("100", "part paid"), ("3186.48", "paid")])
def test_a_payment_changes_the_word(at_desk: Client, build: Acceptance, amount: str, word: str) -> None:
    cast.keep_settings(payment_days=30)
    made = cast.invoiced(build)
    pay(made, Decimal(amount))

    assert states(at_desk) == {made.number: word}


def test_a_credited_invoice_is_credited_and_its_note_settled(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)
    note = cast.credited(made)

    assert states(at_desk) == {made.number: "credited", note.number: "settled"}


def test_credit_on_what_was_paid_is_to_be_paid_back(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)
    pay(made, made.due)
    note = cast.credited(made)

    assert states(at_desk)[note.number] == "to pay back"


def test_what_the_owner_gave_up_is_written_off(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)
    item = OpenItem.objects.get(invoice=made)
    write_off(item=item, amount=made.due, reason="Gone", on=timezone.localdate(NOW), by=owner(), now=NOW)

    assert states(at_desk) == {made.number: "written off"}
    page = text_of(at_desk.get(f"/invoices/{made.pk}/"))
    assert "standard, 20 % 2,655.40 531.08" in page
    assert "the bookkeeper decides" in page


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({"q": "marel"}, True),
        ({"q": "h4 20417"}, True),
        ({"q": "nobody"}, False),
        ({"kind": "deposit_invoice"}, True),
        ({"kind": "credit_note"}, False),
        ({"state": "to pay"}, True),
        ({"state": "overdue"}, False),
        ({"first": "2026-11-25", "last": "2026-11-25"}, True),
        ({"last": "2026-11-24"}, False),
    ],
)
def test_the_list_is_narrowed(at_desk: Client, build: Acceptance, asked: dict[str, str], found: bool) -> None:
    cast.keep_settings(payment_days=365)
    made = cast.deposited(build)

    assert (made.number in states(at_desk, **asked)) == found


def test_a_day_that_is_none_is_said_at_its_field(at_desk: Client, build: Acceptance) -> None:
    cast.deposited(build)

    page = at_desk.get(reverse("invoice-list"), {"first": "yesterday"})

    assert "“yesterday” is not a day, such as 2026-12-24." in text_of(page)


def test_the_list_is_taken_away_with_signed_sums(at_desk: Client, build: Acceptance) -> None:
    cast.credited(cast.invoiced(build))

    lines = at_desk.get(reverse("invoice-list"), {"as": "csv"}).content.decode("utf-8-sig").splitlines()

    assert lines[0].startswith("State,Document,Kind,Customer")
    assert any(",-3186.48," in line and "credit note" in line for line in lines)


@pytest.mark.parametrize(
    "column",
    ["place", "number", "kind", "customer", "build", "issued_on", "due_on", "gross", "due", "open_amount"],
)
def test_the_list_is_sorted_by_any_column_both_ways(at_desk: Client, build: Acceptance, column: str) -> None:
    cast.deposited(build)
    cast.drafted(build)

    up = list(states(at_desk, sort=column))
    down = list(states(at_desk, sort=f"-{column}"))

    assert sorted(up) == sorted(down)
    assert len(up) == 2


def test_a_draft_stands_before_what_is_issued(at_desk: Client, build: Acceptance) -> None:
    made = cast.deposited(build)
    draft = cast.drafted(build)

    assert list(states(at_desk)) == [f"draft {draft.pk}", made.number]


@pytest.mark.parametrize("count", [1, 5])
def test_one_document_and_five_cost_the_same_queries(
    at_desk: Client, workshop_only: None, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for index in range(count):
        cast.deposited(cast.build(f"E-{index}"))

    with django_assert_num_queries(7):
        at_desk.get(reverse("invoice-list"))


@pytest.mark.parametrize("name", ["invoice-list", "payment-list", "payment-new", "invoice-new"])
def test_a_builder_makes_no_documents_and_takes_no_money(client: Client, db: None, name: str) -> None:
    client.force_login(builder())

    assert client.get(reverse(name)).status_code == 403


def test_the_page_of_an_invoice_says_what_was_agreed_and_what_is_asked(
    at_desk: Client, build: Acceptance
) -> None:
    made = cast.invoiced(build)

    page = text_of(at_desk.get(reverse("invoice", args=[made.pk])))

    assert "up to €3,386.48; asked for here: €3,186.48 with tax." in page
    assert "VAT, 20 % on 2,655.40 531.08" in page
    assert "Nothing is paid yet." in page


def test_the_files_are_served_as_they_were_stored(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)

    for name, file, content_type in (
        ("invoice-pdf", made.pdf, "application/pdf"),
        ("invoice-xml", made.xml, "application/xml"),
    ):
        assert file is not None
        answer = at_desk.get(reverse(name, args=[made.pk]))
        assert answer.content == bytes(file.content)
        assert answer["Content-Type"] == content_type
        assert answer["ETag"] == f'"{file.sha256}"'
        again = at_desk.get(reverse(name, args=[made.pk]), headers={"If-None-Match": answer["ETag"]})
        assert again.status_code == 304


def test_a_sales_tax_invoice_has_no_e_invoice(at_desk: Client, db: None) -> None:
    cast.sales_tax_shop()
    made = cast.invoiced(cast.build())

    assert at_desk.get(reverse("invoice-xml", args=[made.pk])).status_code == 404
    assert "XML" not in text_of(at_desk.get(reverse("invoice", args=[made.pk])))


def test_the_owner_writes_off_and_says_why(by_owner: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)
    address = reverse("invoice-write-off", args=[made.pk])
    page = by_owner.get(reverse("invoice", args=[made.pk]))

    refused = by_owner.post(address, typed(page, "write-off/", off__reason=" "))
    assert "the books need the reason" in text_of(refused)
    too_much = by_owner.post(address, typed(page, "write-off/", off__amount="4000", off__reason="Gone"))
    assert "“4000” is more than 3186.48, which is still open." in text_of(too_much)
    by_owner.post(address, typed(page, "write-off/", off__reason="Moved away"))

    assert WriteOff.objects.get().amount == Decimal("3186.48")
    assert OpenItem.objects.get(invoice=made).open_amount == 0


def test_only_the_owner_writes_off(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)

    assert "Write off" not in text_of(at_desk.get(reverse("invoice", args=[made.pk])))
    assert at_desk.post(reverse("invoice-write-off", args=[made.pk])).status_code == 403


def test_a_credit_note_begins_as_a_draft_and_a_second_press_finds_it(
    at_desk: Client, build: Acceptance
) -> None:
    made = cast.invoiced(build)

    first = at_desk.post(reverse("invoice-credit", args=[made.pk]))
    again = at_desk.post(reverse("invoice-credit", args=[made.pk]))

    assert first["Location"] == again["Location"]


def test_a_credit_note_is_not_credited(at_desk: Client, build: Acceptance) -> None:
    note = cast.credited(cast.invoiced(build))

    assert "Begin a credit note" not in text_of(at_desk.get(reverse("invoice", args=[note.pk])))
    answer = at_desk.post(reverse("invoice-credit", args=[note.pk]), follow=True)
    assert answer.redirect_chain[-1][0] == reverse("invoice", args=[note.pk])
    assert "err" in answer.content.decode()
