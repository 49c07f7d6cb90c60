"""What the day sheet says of engines that are here."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.utils import timezone

from quotes.actions.bench.jobs import hold, move
from tests.bench.cast import NOW, job, leave, stripped_job
from tests.bench.test_pages_jobs import text
from tests.books.books_pages import browser
from tests.cast import desk

pytestmark = pytest.mark.django_db


def test_the_desk_is_told_which_engine_waits_for_leave_and_the_builder_which_to_strip() -> None:
    row = job(tag="blue 1")
    assert "Take the leave to strip: J-2026-0001" in text(browser("desk").get("/"))
    assert "Engines here" not in text(browser("builder").get("/"))
    leave(row)
    assert "Take the leave to strip" not in text(browser("desk").get("/"))
    assert "Strip it, leave was given: J-2026-0001" in text(browser("builder").get("/"))


def test_what_rests_says_for_what() -> None:
    hold(job=job(), because="He is at a meeting until Monday", by=desk(), now=NOW)
    assert "On hold: He is at a meeting until Monday: J-2026-0001" in text(browser("desk").get("/"))


def test_what_has_left_stands_for_a_week() -> None:
    row = stripped_job()
    move(job=row, step="released", by=desk(), now=timezone.now() - timedelta(days=2))
    assert "Left: Marel Otten" in text(browser("desk").get("/"))
    other = stripped_job(job(number="H4-20999"))
    move(job=other, step="released", by=desk(), now=timezone.now() - timedelta(days=9))
    assert text(browser("desk").get("/")).count("Left: Marel Otten") == 1
