"""Killed before the end, disk full, several at once: nothing half, nothing lost, who comes late is told."""

from __future__ import annotations

import subprocess
import sys

import pytest
from django.conf import settings
from django.db import OperationalError, connection

from catalogue.actions.price_list.refused import AlreadyTaken
from catalogue.actions.price_list.taking import take_list
from catalogue.models import Change, ListedPrice, ListState, PriceList
from tests.prices.cast import NOW, SPRING, TODAY, checked, listed, prices, read
from tests.quotes.test_at_once import AT_ONCE, at_once

pytestmark = pytest.mark.django_db(transaction=True)


def nothing_is_taken(row: PriceList) -> bool:
    row.refresh_from_db()
    return (row.state, prices(), ListedPrice.objects.count(), Change.objects.count()) == (
        ListState.CHECKED, {}, 0, 0,
    )  # fmt: skip


def test_a_process_that_is_killed_before_the_end_leaves_nothing_and_the_list_waits() -> None:
    row = checked(SPRING)
    command = [sys.executable, "-m", "tests.prices.take_and_die", str(settings.DATABASES["default"]["NAME"])]
    with subprocess.Popen([*command, str(row.pk)], stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "written\n"
        process.kill()
    assert nothing_is_taken(row)
    take_list(pk=row.pk, given=SPRING, by=None, on=TODAY, now=NOW)
    assert prices() == {"A-1": 10, "A-2": 20, "A-3": 30}


def test_a_full_disk_leaves_nothing_half() -> None:
    if connection.vendor != "sqlite":
        pytest.skip("only SQLite can be told how large it may grow")
    many = read(*(listed(f"A-{number}", "10", number) for number in range(2, 500)))
    row = checked(many)
    with connection.cursor() as cursor:
        # Pages that other tests have left free would take the list.
        cursor.execute("VACUUM")
        cursor.execute("PRAGMA page_count")
        pages = cursor.fetchone()[0]
        cursor.execute(f"PRAGMA max_page_count = {pages + 3}")
        with pytest.raises(OperationalError, match="full"):
            take_list(pk=row.pk, given=many, by=None, on=TODAY, now=NOW)
        cursor.execute(f"PRAGMA max_page_count = {2**31}")
    assert nothing_is_taken(row)


def test_of_two_who_take_it_in_at_once_one_is_told() -> None:
    row = checked(SPRING)
    told = []

    def take(_: int) -> None:
        try:
            take_list(pk=row.pk, given=SPRING, by=None, on=TODAY, now=NOW)
        except AlreadyTaken as refused:
            told.append(str(refused))

    at_once(take)
    assert len(told) == AT_ONCE - 1
    assert ListedPrice.objects.count() == 3
