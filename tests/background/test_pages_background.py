"""The pages of work in the background: what one who waits sees, and what the owner sees of all."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from quotes.actions.background import run_later
from quotes.models import BackgroundWork, WorkState
from quotes.queries.background import Progress, show
from tests.background import works
from tests.cast import books, builder, owner

pytestmark = pytest.mark.django_db
ALL = reverse("background")


def asked(client: Client, function: object = works.counts) -> BackgroundWork:
    client.force_login(owner())
    page = reverse("export-list")
    return run_later(function, {}, key="list-1", about="Price list 1", page=page, by=owner())  # type: ignore[arg-type]


def seen(client: Client, work: BackgroundWork) -> tuple[int, str]:
    answer = client.get(reverse("background-state", args=[work.pk]))
    return answer.status_code, answer.content.decode()


def test_who_waits_sees_how_far_it_is_and_the_page_anew_at_its_end(client: Client) -> None:
    work = asked(client)
    BackgroundWork.objects.update(state=WorkState.RUNNING)
    show(work.pk, Progress(400, 1000, "lines are read"))
    status, said = seen(client, work)
    assert status == 200
    assert "lines are read, 400 of 1,000." in said
    assert 'hx-trigger="every 1s"' in said
    BackgroundWork.objects.update(state=WorkState.DONE)
    answer = client.get(reverse("background-state", args=[work.pk]))
    assert answer.headers["HX-Refresh"] == "true"
    assert "every 1s" not in answer.content.decode()


def test_who_may_see_the_result_may_see_how_far_it_is(client: Client) -> None:
    work = asked(client)
    client.force_login(books())
    assert seen(client, work)[0] == 200
    client.force_login(builder())
    assert seen(client, work)[0] == 404


def test_the_owner_sees_what_failed_and_why_and_has_it_done_again(client: Client) -> None:
    work = asked(client, works.refuses)
    assert "Price list 1 failed. Line 3 has no price." in client.get(ALL).content.decode()
    assert "Price list 1 failed in the background" in client.get(reverse("home")).content.decode()
    BackgroundWork.objects.update(function="tests.background.works.counts")
    client.post(reverse("background-again", args=[work.pk]), follow=True)
    assert works.ran() == 1
    assert "failed. Line 3" not in client.get(ALL).content.decode()
