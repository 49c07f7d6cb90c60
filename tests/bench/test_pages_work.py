"""The pages of machine work and the clock."""

from __future__ import annotations

from datetime import timedelta
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.bench.clock import start_clock
from quotes.models import ClockRun, Job, WorkedHours, WorksOrder
from tests.bench.test_works_orders import out
from tests.books.page_forms import text_of, typed
from tests.cast import builder, desk


def test_the_builder_starts_and_stops_his_clock_by_one_press_each(at_bench: Client, of: Job) -> None:
    address = reverse("clock", args=[of.pk])

    at_bench.post(reverse("clock-start", args=[of.pk]), {"operation": "head_on", "key": str(uuid4())})
    assert "Your clock runs since" in text_of(at_bench.get(address))
    at_bench.post(reverse("clock-stop", args=[ClockRun.objects.get().pk]))

    assert "Your clock stands." in text_of(at_bench.get(address))


def test_a_forgotten_clock_asks_before_anything_else(at_bench: Client, of: Job) -> None:
    yesterday = timezone.now() - timedelta(days=1)
    run = start_clock(job=of, operation="head_on", key=uuid4(), by=builder(), now=yesterday)

    at_bench.post(reverse("clock-stop", args=[run.pk]))
    page = at_bench.get(reverse("clock", args=[of.pk]))
    assert "It counts nothing by itself" in text_of(page)
    assert not WorkedHours.objects.exists()

    at_bench.post(reverse("clock-settle", args=[run.pk]), {"settle-hours": "2", "settle-words": "Forgot"})
    assert str(WorkedHours.objects.get().hours) == "2.00"


def test_nobody_stops_another_ones_clock(client: Client, of: Job) -> None:
    run = start_clock(job=of, operation="", key=uuid4(), by=builder(), now=timezone.now())

    client.force_login(desk())

    assert client.post(reverse("clock-stop", args=[run.pk])).status_code == 404


def test_a_works_order_is_written_once_however_often_it_is_sent(at_bench: Client, of: Job) -> None:
    address = reverse("works-order-new", args=[of.pk]) + "?work=replate"
    form = typed(at_bench.get(address), "")
    form |= {"out-tag": "H4-17", "out-words": "Strip, replate and hone to the pistons"}

    first = at_bench.post(address, form)
    again = at_bench.post(address, form)

    assert first["Location"] == again["Location"]
    assert WorksOrder.objects.get().goes_with == ["the pistons that will run in it, numbered"]


def test_what_came_back_is_checked_on_its_page(at_bench: Client, of: Job) -> None:
    order = out(of)
    address = reverse("works-order", args=[order.pk])

    page = at_bench.post(
        address,
        {"back-on": "2026-11-25", "back-tag": "H4-18", "back-size_0": "67.005", "back-sound": "yes"},
    )
    assert "is not the tag it went out under" in text_of(page)
    at_bench.post(
        address,
        {"back-on": "2026-11-25", "back-tag": "h4-17", "back-size_0": "67.005", "back-sound": "yes"},
    )

    assert "sound. Checked by" in text_of(at_bench.get(address))


@pytest.mark.parametrize("many", [1, 20])
def test_the_list_of_what_is_out_takes_the_same_queries_for_one_and_twenty(
    at_bench: Client, of: Job, many: int, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    for _ in range(many):
        out(of)
    at_bench.get(reverse("works-orders-out"))

    with django_assert_max_num_queries(8):
        assert at_bench.get(reverse("works-orders-out")).content.count(b"M-2026-") == many
