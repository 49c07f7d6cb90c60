"""A form sent twice has one effect: pressed twice, after the back button, or over a slow network."""

from __future__ import annotations

import re
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from threading import Barrier
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from quotes.actions.customers import create_customer
from quotes.actions.sent_forms import KEPT, forget_forms
from quotes.models import Customer, CustomerFile, SentForm
from quotes.views.every_request.sent_once import SAID
from quotes.views.records import customers as customer_pages
from tests.cast import books, desk
from tests.imports.customer_files import HEADINGS, csv_file

pytestmark = pytest.mark.django_db
LIND = {"name": "Marta Lind", "telephone": "000 117"}


@pytest.fixture
def at_the_desk() -> Client:
    client = Client(enforce_csrf_checks=True, raise_request_exception=False)
    client.force_login(desk())
    return client


def opened(client: Client, name: str = "customer-new") -> str:
    """The token of the form on a page that is opened anew."""
    found = re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', client.get(reverse(name)).content.decode())
    assert found
    return found[1]


def send(client: Client, token: str, to: str = "customer-new", /, **typed: Any) -> Any:
    return client.post(reverse(to), {"csrfmiddlewaretoken": token, **typed})


def test_a_second_press_leads_where_the_first_led_and_says_so(at_the_desk: Client) -> None:
    page = opened(at_the_desk)

    first, second = send(at_the_desk, page, **LIND), send(at_the_desk, page, **LIND)

    assert first.url == second.url == reverse("customer", args=[Customer.objects.get().pk])
    assert SAID in at_the_desk.get(second.url).content.decode()


def test_a_page_opened_anew_or_filled_in_otherwise_is_another_form(at_the_desk: Client) -> None:
    page = opened(at_the_desk)
    for token, typed in (page, LIND), (page, {**LIND, "telephone": "000 118"}), (opened(at_the_desk), LIND):
        send(at_the_desk, token, **typed)

    assert Customer.objects.count() == 3


def test_what_was_refused_or_failed_may_come_again_as_it_was(
    at_the_desk: Client, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    page = opened(at_the_desk)
    assert send(at_the_desk, page, name="").status_code == send(at_the_desk, page, name="").status_code == 200

    def kept_and_then_lost(**given: Any) -> None:
        create_customer(**given)
        raise ArithmeticError

    with monkeypatch.context() as patch:
        patch.setattr(customer_pages, "create_customer", kept_and_then_lost)
        assert send(at_the_desk, page, **LIND).status_code == 500
    assert not SentForm.objects.exists()
    assert send(at_the_desk, page, **LIND).status_code == 302

    assert Customer.objects.count() == 1


def test_what_was_refused_on_the_page_that_it_led_to_may_come_again(client: Client) -> None:
    client.force_login(books())
    page = opened(client, "bill-import")

    led_to = [send(client, page, "bill-import-take", carried="cut off").url for _ in range(2)]

    assert set(led_to) == {reverse("bill-import")}
    told = client.get(led_to[0]).content.decode()
    assert told.count("did not come along whole") == 2
    assert SAID not in told


def test_a_file_handed_in_twice_is_kept_once(at_the_desk: Client) -> None:
    page = opened(at_the_desk, "import-customers")

    sound = csv_file([str(one) for one in HEADINGS])
    for content in (sound, sound, sound + b"\n"):
        file = SimpleUploadedFile("customers.csv", content)
        assert send(at_the_desk, page, "import-customers", file=file).status_code == 302

    assert CustomerFile.objects.count() == 2


def test_forms_that_nobody_has_before_him_any_more_are_forgotten() -> None:
    now = timezone.now()
    for key, age in ("old", KEPT + timedelta(minutes=1)), ("new", KEPT - timedelta(minutes=1)):
        SentForm.objects.create(key=key, at=now - age)

    forget_forms(now=now)

    assert SentForm.objects.get().key == "new"


@pytest.mark.django_db(transaction=True)
def test_two_that_come_at_the_same_moment_have_one_effect(
    at_the_desk: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    page, both = opened(at_the_desk), Barrier(2)

    def press() -> str:
        both.wait()
        try:
            return str(send(at_the_desk, page, **LIND).url)
        finally:
            connection.close()

    with ThreadPoolExecutor(2) as pool:
        led_to = {press.result() for press in [pool.submit(press), pool.submit(press)]}

    assert led_to == {reverse("customer", args=[Customer.objects.get().pk])}
