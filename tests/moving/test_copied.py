"""Rows of an embedded database written into PostgreSQL as they were, past triggers that stand again after."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
from django.db import DatabaseError, connection, connections, models, transaction
from pytest_django import DjangoDbBlocker

from quotes.database.configured import sqlite_file
from quotes.management.moving import copied, whole
from quotes.management.moving.compared import held_by
from quotes.management.moving.copied import SOURCE, TARGET, copy_all
from quotes.management.moving.whole import NotMoved
from quotes.models import AuditEntry, AuditHead, AuditWords, Counter, SentForm, StoredFile

ON_POSTGRESQL = connection.settings_dict["ENGINE"].endswith("postgresql")
pytestmark = [
    pytest.mark.django_db(databases=["default", SOURCE]),
    pytest.mark.skipif(not ON_POSTGRESQL, reason="nothing is moved to the embedded database"),
]
MOVED: list[type[models.Model]] = [AuditHead, AuditEntry, AuditWords, Counter, SentForm, StoredFile]
AT = datetime(2026, 3, 2, 12, 0, 0, 123456, tzinfo=UTC)


@pytest.fixture(scope="module", autouse=True)
def source(
    django_db_setup: None, tmp_path_factory: pytest.TempPathFactory, django_db_blocker: DjangoDbBlocker
) -> Iterator[None]:
    """An embedded database of a few tables, with rows that the chain of changes would not take one by one."""
    file = sqlite_file(tmp_path_factory.mktemp("moved") / "workshop.sqlite3")
    connections.databases[SOURCE] = {**connections.databases[TARGET], **file}
    with django_db_blocker.unblock():
        with connections[SOURCE].schema_editor() as editor:
            for model in MOVED:
                editor.create_model(model)
        _fill()
    yield
    connections[SOURCE].close()
    del connections[SOURCE], connections.databases[SOURCE]


@pytest.fixture(autouse=True)
def these_tables(monkeypatch: pytest.MonkeyPatch) -> None:
    for module in (copied, whole):
        monkeypatch.setattr(module, "tables", lambda: MOVED)


def _fill() -> None:
    """By plain statements: nobody listens to rows of another database."""
    _put(AuditHead(id=1, count=7, hash="a" * 64))
    for number in (6, 7):
        told = {"previous": "b" * 64, "hash": f"{number}" * 64, "digest": "c" * 64, "record_type": "x"}
        _put(AuditEntry(number=number, at=AT, by_kind="person", record_id="1", **told))
        _put(AuditWords(entry_id=number, told="{}"))
    _put(StoredFile(pk=41, name="é", sha256="d" * 64, held=bytes(range(256)), made_at=AT))
    _put(StoredFile(pk=44, name="later gone", sha256="e" * 64, made_at=AT))
    _rows(StoredFile).filter(pk=44)._raw_delete(SOURCE)
    _put(SentForm(key="f" * 64, at=AT, led_to="/quotes/1/"))


def _put(row: models.Model) -> None:
    _rows(type(row)).bulk_create([row])


def _rows(model: type[models.Model]) -> models.QuerySet[Any]:
    return models.QuerySet(model).using(SOURCE)


def test_rows_come_as_they_were_and_no_key_is_given_twice() -> None:
    copy_all()
    assert [held_by(model, SOURCE) for model in MOVED] == [held_by(model, TARGET) for model in MOVED]
    file = StoredFile.objects.get()
    assert (file.pk, file.name, bytes(file.held), file.made_at) == (41, "é", bytes(range(256)), AT)
    assert StoredFile.objects.create(name="new", sha256="0" * 64, made_at=AT).pk == 45


def test_the_triggers_stand_again() -> None:
    copy_all()
    with pytest.raises(DatabaseError), transaction.atomic():
        models.QuerySet(StoredFile).update(name="forged")


def test_a_table_that_is_not_the_same_is_named() -> None:
    copy_all()
    Counter.objects.create(kind="Q", year=2026, value=3)
    said: list[str] = []
    with pytest.raises(NotMoved, match="not the same on both sides: quotes_counter"):
        whole._compare(said.append)
    [line] = [line for line in said if line.startswith("quotes_counter")]
    assert "DIFFERENT" in line


def test_a_database_that_holds_something_is_refused() -> None:
    with pytest.raises(NotMoved, match="tables already"):
        whole._refuse_target()
