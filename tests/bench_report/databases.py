"""Databases to measure on: one with the catalogue, and copies of it with years of invented trading."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from pathlib import Path

from django.core.management import call_command
from django.db import connection

from quotes.calc.years.plan import FULL_QUOTES


def make_first() -> None:
    """The database as the migrations leave it, without anything in it, and what pages are made up with."""
    call_command("migrate", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)


@contextmanager
def with_catalogue() -> Iterator[None]:
    """A copy with the shipped catalogue."""
    with _copy("catalogue"):
        call_command("load_catalogue", stdout=StringIO())
        yield


@contextmanager
def with_years(quotes: int) -> Iterator[None]:
    """A copy with so many quotes and all that came of them."""
    with _copy(f"years_{quotes}"):
        share = quotes / FULL_QUOTES
        call_command("load_years", share=share, stdout=StringIO(), stderr=StringIO())
        if connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute("ANALYZE")
        yield


@contextmanager
def _copy(name: str) -> Iterator[None]:
    """The first database once more under another name, for as long as it is wanted."""
    first = str(connection.settings_dict["NAME"])
    leave()
    other = _make_file(first, name) if connection.vendor == "sqlite" else _make_database(first, name)
    connection.settings_dict["NAME"] = other
    try:
        yield
    finally:
        leave()
        connection.settings_dict["NAME"] = first
        _drop(other)


def _make_file(first: str, name: str) -> str:
    other = str(Path(first).with_name(f"{name}.sqlite3"))
    shutil.copyfile(first, other)
    return other


def _make_database(first: str, name: str) -> str:
    _at_another(f'CREATE DATABASE "{name}" TEMPLATE "{first}"')
    return name


def _drop(name: str) -> None:
    if connection.vendor == "sqlite":
        Path(name).unlink()
    else:
        _at_another(f'DROP DATABASE "{name}" WITH (FORCE)')


def _at_another(statement: str) -> None:
    """From another database of the server: one that is copied or dropped must have nobody in it."""
    before = connection.settings_dict["NAME"]
    connection.settings_dict["NAME"] = "template1"
    try:
        with connection.cursor() as cursor:
            cursor.execute(statement)
    finally:
        leave()
        connection.settings_dict["NAME"] = before


def leave() -> None:
    """No connection is left, not even one that waits for the next request."""
    connection.close()
    if connection.vendor == "postgresql":
        connection.close_pool()  # type: ignore[attr-defined]


def settle() -> None:
    """The site's own settings in a folder that goes with the run."""
    import atexit
    import tempfile

    folder = tempfile.mkdtemp(prefix="quotes-bench-")
    atexit.register(_forget, folder, os.getpid())
    os.environ |= {"DATA_DIR": folder, "STATIC_ROOT": f"{folder}/static"}
    os.environ["DJANGO_SETTINGS_MODULE"] = "quotes.settings"
    # Of both databases alike: papers are drawn by the site itself.
    os.environ.setdefault("BACKGROUND", "site")
    import django

    django.setup()


def _forget(folder: str, of: int) -> None:
    """Not in a child whose memory is looked at: the folder is the parent's."""
    if os.getpid() == of:
        shutil.rmtree(folder, ignore_errors=True)
