"""Work in the background: done once for each key, whole or not at all, and taken up where it was left."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import nullcontext
from datetime import timedelta
from typing import Any

import pytest
from django.conf import settings
from django.db import transaction
from django.utils import timezone
from django_tasks_db.models import DBTaskResult
from pytest_django import Settings

from quotes.actions.background import do_work, run_again, run_later
from quotes.actions.background_hand import Lost, WorkInHand, take_in_hand
from quotes.actions.background_lost import take_up_lost
from quotes.models import AuditEntry, BackgroundWork, WorkState
from tests.background import works
from tests.cast import owner

pytestmark = pytest.mark.django_db
MUCH_LATER = timedelta(days=1)


@pytest.fixture
def queued(settings: Settings, monkeypatch: pytest.MonkeyPatch) -> None:
    """Work waits for a worker, and whoever does it gives no signs beside it: a test holds one connection."""
    settings.BACKGROUND = "worker"
    monkeypatch.setattr(WorkInHand, "showing", lambda self: nullcontext())


def asked(
    function: Callable[..., None] = works.counts, key: str = "list-1", **arguments: Any
) -> BackgroundWork:
    return run_later(function, arguments, key=key, about="Price list 1", by=owner())


def queue() -> list[Any]:
    return list(DBTaskResult.objects.filter(status="READY").values_list("args_kwargs", flat=True))


def test_under_tests_it_is_done_where_it_is_asked_for() -> None:
    work = asked(rows=5)
    assert (work.state, work.done, work.of, works.ran()) == (WorkState.DONE, 5, 5, 1)


@pytest.mark.usefixtures("queued")
def test_it_waits_in_the_queue_and_asked_for_twice_it_is_done_once() -> None:
    work, again = asked(), asked()
    assert (again.pk, queue()) == (work.pk, [{"args": [work.pk], "kwargs": {}}])
    do_work(work.pk)
    do_work(work.pk)
    assert (asked().state, works.ran(), len(queue())) == (WorkState.DONE, 1, 1)


@pytest.mark.usefixtures("queued")
def test_what_asked_for_it_and_is_not_kept_leaves_no_work() -> None:
    with transaction.atomic():
        asked()
        transaction.set_rollback(True)
    assert not BackgroundWork.objects.exists()
    assert queue() == []


@pytest.mark.usefixtures("queued")
def test_what_is_refused_keeps_nothing_and_says_why_and_may_be_asked_for_again() -> None:
    work = asked(works.refuses)
    do_work(work.pk)
    work.refresh_from_db()
    assert (work.state, work.failed_because, works.ran()) == (WorkState.FAILED, "Line 3 has no price.", 0)
    again = asked(works.counts)
    do_work(again.pk)
    assert (again.pk, works.ran()) == (work.pk, 1)


@pytest.mark.usefixtures("queued")
def test_a_fault_of_the_program_is_named_and_keeps_nothing(caplog: pytest.LogCaptureFixture) -> None:
    work = asked(works.breaks)
    do_work(work.pk)
    work.refresh_from_db()
    assert work.is_failed
    assert "ValueError: not a figure" in work.failed_because
    assert works.ran() == 0
    assert "list-1 failed" in caplog.text


@pytest.mark.usefixtures("queued")
def test_only_what_failed_is_done_again() -> None:
    done = asked()
    do_work(done.pk)
    run_again(done)
    assert works.ran() == 1
    assert len(queue()) == 1


@pytest.mark.usefixtures("queued")
def test_what_a_silent_hand_left_is_taken_up_and_the_first_can_keep_nothing_more() -> None:
    work, now = asked(), timezone.now()
    first = take_in_hand(work.pk)
    assert first is not None
    assert take_up_lost(now=now) == 0
    assert take_up_lost(now=now + settings.BACKGROUND_SILENT + timedelta(seconds=5)) == 1
    with pytest.raises(Lost):
        works.counts(first)
    assert works.ran() == 0
    do_work(work.pk)
    assert works.ran() == 1


@pytest.mark.usefixtures("queued")
def test_what_ends_its_process_each_time_is_given_up() -> None:
    work = asked()
    for _ in range(settings.BACKGROUND_TRIES):
        assert take_in_hand(work.pk)
        take_up_lost(now=timezone.now() + MUCH_LATER)
    work.refresh_from_db()
    assert work.is_failed
    assert "begun 3 times" in work.failed_because


@pytest.mark.usefixtures("queued")
def test_what_the_queue_has_lost_is_queued_again() -> None:
    work = asked()
    DBTaskResult.objects.all().delete()
    later = timezone.now() + MUCH_LATER
    assert (take_up_lost(now=later), take_up_lost(now=later)) == (1, 0)
    assert queue() == [{"args": [work.pk], "kwargs": {}}]


@pytest.mark.usefixtures("queued")
def test_what_it_changes_is_on_the_account_of_who_asked_for_it() -> None:
    work = run_later(works.names_the_workshop, {}, key="name", about="The name", by=owner())
    do_work(work.pk)
    entry = AuditEntry.objects.filter(record_type="quotes.workshop").latest("number")
    assert entry.by_id == str(owner().pk)
