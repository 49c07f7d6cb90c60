"""A form that comes after the sign-in has ended is handed back, not lost behind the page of signing in."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from quotes.models import Customer
from tests.cast import PASSWORD, desk
from tests.quotes.test_pages_sign_in_own import leave
from tests.quotes.test_signed_in import signed_in_by_form

pytestmark = pytest.mark.django_db
HERE = "http://testserver"


@pytest.fixture
def left_alone() -> Client:
    """A browser with a filled form on its screen, away for longer than a sign-in lasts."""
    desk()
    client = signed_in_by_form()
    client.handler.enforce_csrf_checks = True
    leave(client, 130)
    return client


def form_on(page: Any) -> dict[str, str]:
    fields = re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', page.content.decode())
    assert fields
    return dict(fields)


def sent(client: Client, form: dict[str, str], origin: str = HERE) -> Any:
    return client.post(reverse("customer-new"), form, headers={"Origin": origin})


def test_what_was_typed_goes_through_after_signing_in_anew(left_alone: Client) -> None:
    token = left_alone.cookies["csrftoken"].value
    late = sent(left_alone, {"name": "Marta Lind", "csrfmiddlewaretoken": token})
    assert (late.status_code, "Your sign-in has ended" in late.content.decode()) == (403, True)

    left_alone.handler.enforce_csrf_checks = False
    left_alone.post(reverse("sign-in"), {"username": "desk", "password": PASSWORD})
    left_alone.handler.enforce_csrf_checks = True
    older = sent(left_alone, form_on(late))
    assert (older.status_code, "older than your sign-in" in older.content.decode()) == (403, True)
    assert not Customer.objects.exists()

    assert sent(left_alone, form_on(older)).status_code == 302
    assert Customer.objects.get().name == "Marta Lind"


def test_what_another_site_sends_is_not_handed_on(left_alone: Client) -> None:
    page = sent(left_alone, {"name": "Marta Lind"}, origin="http://elsewhere.example").content.decode()

    assert "did not come from a page of this site" in page
    assert "<form" not in page
    assert "Marta Lind" not in page


def test_a_part_of_a_page_is_not_filled_with_the_page_of_signing_in(left_alone: Client) -> None:
    part = left_alone.get(reverse("customer-list"), headers={"HX-Request": "true"})

    assert part.status_code == 403
