"""Reminding from the overdue list: pick, write, print, write down how it was sent, and find it again."""

from __future__ import annotations

import pytest
from django.urls import reverse

from quotes.actions.books import reminders
from quotes.models import Acceptance, Invoice, PaymentReminder
from tests.books.books_pages import browser, day, invoiced
from tests.books.ledger_cast import marel, paid
from tests.books.page_forms import text_of, typed


@pytest.fixture(autouse=True)
def plain_paper(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reminders, "drawn_reminder", lambda paper: f"%PDF {paper.number}".encode())


@pytest.fixture
def late(build: Acceptance) -> Invoice:
    return invoiced(build)


def test_from_overdue_to_a_reminder_that_was_sent(late: Invoice) -> None:
    client, new = browser(), reverse("reminder-new", args=[marel().pk])
    assert f'href="{new}"' in client.get(reverse("overdue")).content.decode()

    answer = client.post(new, typed(client.get(new), "", words="We miss your payment."))
    made = PaymentReminder.objects.get()
    page = answer["Location"]
    assert page == reverse("reminder", args=[made.pk])
    assert made.sheet["words"] == "We miss your payment."
    assert "not sent yet" in text_of(client.get(reverse("invoice", args=[late.pk])))

    client.post(page, typed(client.get(page), "", how="registered", proof="RR 123"))
    told = text_of(client.get(page))
    assert f"{marel().email} RR 123" in told
    assert "registered letter" in text_of(client.get(reverse("invoice", args=[late.pk])))
    assert "Remind Marel Otten reminded " in text_of(client.get(reverse("overdue")))
    assert client.get(reverse("reminder-pdf", args=[made.pk])).content == f"%PDF {made.number}".encode()


def test_what_was_paid_since_stands_beside_what_was_claimed(late: Invoice) -> None:
    client, new = browser(), reverse("reminder-new", args=[marel().pk])
    page = client.post(new, typed(client.get(new), ""))["Location"]
    paid("3186.48")

    assert "3,186.48 were claimed. All of it is settled by now." in text_of(client.get(page))
    assert "Nothing is overdue." in text_of(client.get(new))


def test_a_fault_names_its_field_and_what_was_typed_stays(late: Invoice) -> None:
    client, new = browser(), reverse("reminder-new", args=[marel().pk])
    tick = f"item_{late.item.pk}"
    sent = typed(client.get(new), "", words="We miss it.", pay_by=f"{day(3)}", **{tick: None})

    told = client.post(new, sent).content.decode()
    assert "Nothing is picked" in told
    assert "We miss it." in told

    sent[tick] = "on"
    assert "is past" in client.post(new, sent).content.decode()
    assert not PaymentReminder.objects.exists()


def test_the_list_is_narrowed_to_what_was_not_sent(late: Invoice) -> None:
    client, new = browser(), reverse("reminder-new", args=[marel().pk])
    assert "No reminders yet." in text_of(client.get(reverse("reminder-list")))
    pages = [client.post(new, typed(client.get(new), ""))["Location"] for _each in range(2)]
    client.post(pages[0], typed(client.get(pages[0]), "", how="email"))

    rows = client.get(reverse("reminder-list"), {"state": "not_sent"}).context["table"].paginated_rows
    assert [reverse("reminder", args=[row.record.pk]) for row in rows] == pages[1:]
    assert "e-mail" in text_of(client.get(reverse("reminder-list"), {"q": "Otten", "state": "sent"}))
