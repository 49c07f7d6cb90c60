"""Advice not taken: written down on the page of the job, signed where a rider's safety hangs on it."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.urls import reverse

from quotes.models import DeclinedAdvice, Job, Workshop
from tests.books.page_forms import text_of, typed


def refused(client: Client, of: Job, **change: str) -> Any:
    address = reverse("job-advice", args=[of.pk])
    told = {"words": "A new water pump seal", "how": "Here in the workshop", **change}
    return client.post(address, typed(client.get(address), **told), follow=True)


def test_what_was_advised_and_not_taken_stands_on_the_jobs_page(at_bench: Client, of: Job) -> None:
    refused(at_bench, of, risk="It may weep before the season is over.")

    page = text_of(at_bench.get(reverse("job", args=[of.pk])))
    assert "A new water pump seal. Marel Otten" in page
    assert "If it is left: It may weep before the season is over." in page


def test_a_no_that_bears_on_the_rider_takes_a_signature(at_bench: Client, of: Job) -> None:
    page = refused(at_bench, of, words="New rod bolts", rider_safety="on")
    assert "is no signature" in text_of(page)
    assert 'value="New rod bolts"' in page.content.decode()

    refused(at_bench, of, words="New rod bolts", rider_safety="on", how="In writing, signed")
    assert DeclinedAdvice.objects.get(rider_safety=True).words == "New rod bolts"


def test_a_part_that_can_lock_the_wheel_bears_on_the_rider_though_nobody_ticks_it(
    at_bench: Client, of: Job
) -> None:
    assert "is no signature" in text_of(refused(at_bench, of, component="rod_bolt"))


def test_the_owner_may_build_no_engine_without_it(at_bench: Client, of: Job) -> None:
    Workshop.objects.update(refuses_unsafe=True)

    page = refused(at_bench, of, component="rod_bolt", how="In writing, signed")
    assert "this workshop does not build an engine without it. Speak with the customer" in text_of(page)
    assert not DeclinedAdvice.objects.exists()


def test_a_call_has_its_number(at_bench: Client, of: Job) -> None:
    assert "write the number that was called" in text_of(refused(at_bench, of, how="By telephone"))


def test_the_form_sent_twice_is_kept_once(at_bench: Client, of: Job) -> None:
    address = reverse("job-advice", args=[of.pk])
    sent = typed(at_bench.get(address), words="A new seal", how="By message")

    at_bench.post(address, sent)
    at_bench.post(address, sent)
    assert DeclinedAdvice.objects.count() == 1
