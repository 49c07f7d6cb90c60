"""The file of a price list lies where all files do: taken in from there, and gone with its list."""

from __future__ import annotations

from importlib import import_module
from io import StringIO
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.apps import apps
from django.core.files.storage import storages
from django.core.management import call_command
from django.db import connection
from django.test import TestCase
from pytest_django import Settings

from catalogue.actions.price_list.handing_in import drop_list, hand_in, keep_reading
from catalogue.models import ListState, PriceList
from catalogue.models.file_store import SMALL_BYTES, file_store, walk
from quotes.imports.price_list.suggest import suggest
from quotes.imports.taking_prices import ask_check, ask_take
from quotes.models import BackgroundWork
from quotes.queries.record.files import kept_copies
from tests.cast import desk, owner
from tests.files.buckets import bucket
from tests.imports.price_lists import csv_file, ring
from tests.prices.cast import HOUSE, NOW, TODAY, prices

pytestmark = pytest.mark.django_db
MANY = [ring(Part_number=f"KV-{number}", Net_price="12.50") for number in range(300)]
LARGE = csv_file(*MANY, separator=";")
assert len(LARGE) > SMALL_BYTES


@pytest.fixture(autouse=True)
def media(tmp_path: Path, settings: Settings) -> Path:
    settings.MEDIA_ROOT = tmp_path / "media"
    settings.MEDIA_ROOT.mkdir()
    return tmp_path / "media"


def waiting(content: bytes = LARGE) -> PriceList:
    row = hand_in(supplier=HOUSE, name="spring.csv", content=content, by=desk(), now=NOW)
    reading = suggest(content, row.name, None).reading.model_dump(mode="json")
    return keep_reading(pk=row.pk, reading=reading)


def checked_work(row: PriceList) -> BackgroundWork:
    work = ask_check(price_list=row, on=TODAY, by=desk())
    row.refresh_from_db()
    return work


def in_force(content: bytes) -> PriceList:
    row = waiting(content)
    checked_work(row)
    with TestCase.captureOnCommitCallbacks(execute=True):
        ask_take(price_list=row, on=TODAY, by=owner())
    row.refresh_from_db()
    assert row.state == ListState.IN_FORCE
    return row


def faults() -> list[str]:
    return [str(fault) for found in kept_copies() for fault in found]


def test_it_lies_outside_once_and_goes_when_the_next_list_is_in_force() -> None:
    first = in_force(LARGE)
    assert (bytes(first.held), [*walk(file_store())]) == (b"", [first.place])
    second = in_force(LARGE.replace(b"12.50", b"12.60"))
    first.refresh_from_db()
    assert (first.place, [*walk(file_store())]) == ("", [second.place])
    assert faults() == []


def test_the_same_file_twice_is_kept_once_and_goes_when_it_is_dropped() -> None:
    row = waiting()
    assert waiting().pk == row.pk
    assert [*walk(file_store())] == [row.place]
    with TestCase.captureOnCommitCallbacks(execute=True):
        drop_list(pk=row.pk)
    assert ([*walk(file_store())], faults()) == ([], [])


def test_another_machine_reads_it_out_of_the_bucket_that_they_share(
    server: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(storages._storages, "default", bucket(server, "lists"))  # type: ignore[attr-defined]
    row = waiting()
    monkeypatch.setitem(storages._storages, "default", bucket(server, "lists"))  # type: ignore[attr-defined]
    assert checked_work(row).failed_because == ""
    ask_take(price_list=row, on=TODAY, by=owner())
    assert (len(prices()), faults()) == (300, [])


@pytest.mark.parametrize(("how", "words"), [("gone", "is gone from where"), ("damaged", "is not what was")])
def test_where_it_is_gone_or_damaged_its_check_says_so_and_changes_nothing(
    media: Path, how: str, words: str
) -> None:
    row = waiting()
    place = media / row.place
    place.unlink() if how == "gone" else place.write_bytes(LARGE.replace(b"12.50", b"12.05"))
    work = checked_work(row)
    assert (work.is_failed, words in work.failed_because) == (True, True)
    assert row.state == ListState.HANDED_IN
    assert [fault.split(":")[0] for fault in faults()] == [f"Price list {row.pk} spring.csv"]


def test_a_file_handed_in_before_is_moved_out_of_its_row_and_back_into_it() -> None:
    row = waiting()
    PriceList.objects.update(held=LARGE, place="")
    call_command("move_files", stdout=StringIO())
    row.refresh_from_db()
    assert (bytes(row.held), row.content) == (b"", LARGE)
    migration = import_module("catalogue.migrations.0008_price_lists_outside")
    migration.back_into_rows(apps, SimpleNamespace(connection=connection))
    row.refresh_from_db()
    assert bytes(row.held) == LARGE
