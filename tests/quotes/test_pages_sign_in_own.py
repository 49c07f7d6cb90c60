"""The page of one's own sign-in, and the end of one that is left idle."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.sessions.models import Session
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.models import SignIn
from quotes.views.every_request.signed_in import USED
from tests.cast import desk, person
from tests.quotes.test_signed_in import begun, signed_in_by_form

pytestmark = pytest.mark.django_db


def leave(client: Client, minutes: int) -> None:
    """As if the last page had been asked for so long ago."""
    session = client.session
    session[USED] = (timezone.now() - timedelta(minutes=minutes)).isoformat()
    session.save()


def test_the_page_names_browser_and_address_and_which_one_this_is() -> None:
    desk()
    page = signed_in_by_form().get(reverse("own-sign-in")).content.decode()

    assert "<b>Firefox on Linux</b>, from 127.0.0.1" in " ".join(page.split())
    assert "this one" in page
    assert "End all others" not in page


def test_all_others_end_and_this_one_goes_on() -> None:
    desk()
    here, there = signed_in_by_form(), signed_in_by_form()

    assert "1 ended." in here.post(reverse("end-other-sign-ins"), follow=True).content.decode()
    assert there.get(reverse("own-sign-in")).status_code == 302


def test_another_persons_sign_in_is_not_there() -> None:
    desk()
    other = begun(person("builder"))

    assert signed_in_by_form().post(reverse("end-sign-in", args=[other.pk])).status_code == 404


def test_a_sign_in_left_for_two_hours_ends_and_the_next_page_says_so() -> None:
    desk()
    client = signed_in_by_form()
    leave(client, 121)

    page = client.get(reverse("own-sign-in"), follow=True)
    assert page.redirect_chain[-1][0].startswith(reverse("sign-in"))
    assert "You were away for a while" in page.content.decode()
    assert not SignIn.objects.exists()


def test_what_is_used_goes_on_but_not_past_the_day() -> None:
    desk()
    client = signed_in_by_form()
    ends = Session.objects.get().expire_date
    leave(client, 119)

    assert client.get(reverse("own-sign-in")).status_code == 200
    assert timezone.now() - SignIn.objects.get().last_used < timedelta(minutes=1)
    assert abs(Session.objects.get().expire_date - ends) < timedelta(seconds=2)


def test_a_page_within_some_minutes_writes_nothing(django_assert_num_queries: DjangoAssertNumQueries) -> None:
    desk()
    client = signed_in_by_form()

    # The session, the person, his sign-ins, his codes, the workshop, his roles.
    with django_assert_num_queries(6) as seen:
        client.get(reverse("own-sign-in"))
    assert all(query["sql"].startswith("SELECT") for query in seen.captured_queries)
