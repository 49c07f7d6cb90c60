"""The page on which a build is called off, and what its money page says then."""

from __future__ import annotations

from django.test import Client
from django.urls import reverse

from quotes.models import Acceptance, CalledOff
from tests.books.page_forms import text_of
from tests.cast import builder


def test_it_is_asked_about_first_and_then_kept(at_desk: Client, build: Acceptance) -> None:
    page, address = reverse("build-money", args=[build.pk]), reverse("build-call-off", args=[build.pk])
    assert address in at_desk.get(page).content.decode()
    assert "It can't be undone." in text_of(at_desk.get(address))
    assert not CalledOff.objects.exists()

    said = {"reason": "Sold", "said_by": "Marel Otten", "on": str(build.accepted_at.date())}
    answer = at_desk.post(address, said)

    assert answer["Location"] == page
    shown = at_desk.get(page)
    assert "Marel Otten called it off on" in text_of(shown)
    assert address not in shown.content.decode()
    assert shown.context["acts"] == []
    assert "Offer extra work" not in text_of(shown)
    assert "The deposit comes first" not in text_of(shown)


def test_what_is_missing_is_said_and_what_was_typed_stays(at_desk: Client, build: Acceptance) -> None:
    address = reverse("build-call-off", args=[build.pk])

    page = at_desk.post(address, {"reason": "", "said_by": "Marel Otten", "on": "2026-13-01"})

    assert "Nothing is given: a few words." in text_of(page)
    assert 'value="2026-13-01"' in page.content.decode()


def test_the_builder_does_not_call_a_build_off(client: Client, build: Acceptance) -> None:
    client.force_login(builder())

    assert client.get(reverse("build-call-off", args=[build.pk])).status_code == 403
