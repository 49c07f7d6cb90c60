"""Fixtures that every test may use, and what all tests of a run share."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from operator import attrgetter
from pathlib import Path
from typing import Any

import pytest
from django.db import connection
from django.db.backends.postgresql.base import DatabaseWrapper as PostgreSQLWrapper
from django.db.backends.sqlite3.base import DatabaseWrapper as SQLiteWrapper
from hypothesis import settings
from pytest_django import DjangoDbBlocker
from whitenoise.middleware import WhiteNoiseMiddleware

from quotes.documents import pdf
from quotes.models import frozen_triggers
from quotes.queries import comparison
from tests.quick_columns import make_columns_quick
from tests.shared import KeptComparisons, kept_paper, leave_migrated, migrated_once, say_collected
from tests.shipped import load_shipped, standing, unload
from tests.signing_in import sign_in_quickly
from tests.written_again import begin_test, hear, make_anew

# A busy machine may take its time over one example. The gate draws others each time, `make properties` many.
settings.register_profile("gate", settings(), deadline=None, max_examples=30)
settings.register_profile("many", settings(), deadline=None, max_examples=1000)
settings.load_profile("gate")

make_columns_quick()
sign_in_quickly()


@pytest.fixture(scope="session", autouse=True)
def kept_comparisons() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(comparison, "compare", KeptComparisons().compare)
        yield


@pytest.fixture(scope="session", autouse=True)
def looked_for_once() -> Iterator[None]:
    """The files that go with the pages: each new client would look through all their folders again."""
    plain = WhiteNoiseMiddleware.add_files_from_finders
    found: dict[str, Any] = {}

    def add(self: Any) -> None:
        if not found:
            before = {*self.files}
            plain(self)
            found.update((url, file) for url, file in self.files.items() if url not in before)
        self.files.update(found)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(WhiteNoiseMiddleware, "add_files_from_finders", add)
        yield


@pytest.fixture(scope="session", autouse=True)
def kept_papers() -> Iterator[None]:
    """Of quotes and receipts; tests of the papers themselves draw them (tests/documents/conftest.py)."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pdf, "printed", kept_paper(pdf.printed))
        yield


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings: None) -> Iterator[None]:
    """Stands around the making of the test database, as pytest-django asks for it first."""
    with migrated_once():
        yield


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> None:
    """The test database as pytest-django makes it, with the shipped catalogue, left to the next part."""
    with django_db_blocker.unblock():
        load_shipped()
        leave_migrated(str(connection.settings_dict["NAME"]))
        hear()


@pytest.fixture(autouse=True)
def _heard(request: pytest.FixtureRequest) -> Iterator[None]:
    marker = request.node.get_closest_marker("django_db")
    commits = {"transactional_db", "live_server"}.intersection(request.fixturenames)
    begin_test(taken_back=not commits and not (marker and marker.kwargs.get("transaction")))
    yield
    make_anew()  # A fixture of a whole module comes before its first test is begun.


@pytest.fixture
def no_catalogue(db: None) -> None:
    """Before the catalogue is loaded for the first time."""
    unload()


@pytest.fixture(scope="session", autouse=True)
def flush_past_triggers() -> Iterator[None]:
    """SQLite empties tables by deleting rows: for that moment the triggers against it are taken off."""
    plain = SQLiteWrapper.ops_class.sql_flush

    def sql_flush(self: Any, style: Any, tables: Sequence[str], **options: Any) -> list[str]:
        off, on = frozen_triggers.let_go("sqlite"), frozen_triggers.keep("sqlite")
        kept = standing(tables)
        return [*off, *plain(self, style, [each for each in tables if each not in kept], **options), *on]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(SQLiteWrapper.ops_class, "sql_flush", sql_flush)
        yield


@pytest.fixture(scope="session", autouse=True)
def flush_what_has_rows() -> Iterator[None]:
    """PostgreSQL makes a new file for each table it truncates: deleting the few rows is sooner done."""

    def sql_flush(self: Any, style: Any, tables: Sequence[str], **options: Any) -> list[str]:
        assert not options.get("reset_sequences"), "rows are deleted, numbers go on"
        kept = standing(tables)
        names = [self.quote_name(table) for table in tables if table not in kept]
        with self.connection.cursor() as cursor:
            cursor.execute(f"SELECT {', '.join(f'EXISTS (SELECT FROM {name})' for name in names)}")
            filled = [name for name, has_rows in zip(names, cursor.fetchone(), strict=True) if has_rows]
        off, on = (
            "SET LOCAL session_replication_role = replica",
            "SET LOCAL session_replication_role = origin",
        )
        return [off, *(f"DELETE FROM {name}" for name in filled), on]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(PostgreSQLWrapper.ops_class, "sql_flush", sql_flush)
        yield


def pytest_collection_finish() -> None:
    """What was collected stays to the end: the collector need not look through it again and again."""
    say_collected()
    gc.collect()
    gc.freeze()
    gc.set_threshold(200_000, 20, 20)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--second-database",
        action="store_true",
        help="leave out what another run has: what needs no database, and what one database is enough for",
    )


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """A file of pages that names no test for both databases need not be imported to leave it out."""
    if not (config.getoption("second_database") and collection_path.is_file() and _of_pages(collection_path)):
        return None
    return "both_databases" not in collection_path.read_text() or None


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("second_database"):
        kept = _two_cases_each([item for item in items if _needs_both(item)])
        config.hook.pytest_deselected(items=[item for item in items if item not in set(kept)])
        items[:] = kept


def _two_cases_each(items: list[pytest.Item]) -> list[pytest.Item]:
    """Of a test with many cases two are enough to show that a database takes its statements."""
    cases: dict[str, list[pytest.Item]] = {}
    for item in items:
        cases.setdefault(item.nodeid.partition("[")[0], []).append(item)
    name = attrgetter("nodeid")
    kept = {each for of_one in cases.values() for each in (min(of_one, key=name), max(of_one, key=name))}
    return [item for item in items if item in kept]


def _needs_both(item: pytest.Item) -> bool:
    """Pages, by the name of their file, are asked on SQLite only; their reads and writes on both.

    How many queries something takes is the same on both.
    """
    if item.get_closest_marker("both_databases"):
        return True
    if "django_assert_num_queries" in getattr(item, "fixturenames", ()):
        return False
    if _of_pages(item.path) or item.get_closest_marker("one_database"):
        return False
    wanted = {"db", "transactional_db", "live_server"}
    return bool(
        item.get_closest_marker("django_db") or wanted.intersection(getattr(item, "fixturenames", ()))
    )


def _of_pages(file: Path) -> bool:
    return file.name.startswith("test_pages_") or file.stem.endswith(("_page", "_pages"))
