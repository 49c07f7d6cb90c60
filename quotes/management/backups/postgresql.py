"""A PostgreSQL database: its dump under writers, and the dump put into an empty database."""

from __future__ import annotations

import os
import secrets
import subprocess
from contextlib import closing
from pathlib import Path
from typing import Any

import psycopg
from psycopg import sql
from psycopg.conninfo import make_conninfo

from quotes.management.backups.manifest import BackupError, Counts

FILE = "database.dump"
# The tables belong to whoever puts them back.
AS_IS = ("--no-owner", "--no-privileges")


class MayNot(Exception):
    """The role may not make a database; as a sentence."""


def copy(database: dict[str, Any], folder: Path) -> Counts:
    """Dumps the database into `folder` as of one moment, while others may write."""
    with closing(_connect(database)) as connection:
        connection.execute("BEGIN ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        # Dump and counts look at the same moment.
        [snapshot] = connection.execute("SELECT pg_export_snapshot()").fetchone() or [""]
        output = ("--format=custom", f"--file={folder / FILE}")
        _run(database, "pg_dump", *AS_IS, *output, f"--snapshot={snapshot}", _name(database))
        return _counts(connection)


def is_empty(database: dict[str, Any]) -> bool:
    """Whether there is no table."""
    with closing(_connect(database)) as connection:
        return not _tables(connection)


def put_back(folder: Path, database: dict[str, Any]) -> Counts:
    """Puts the dump into the database, whole or not at all, and counts what is there then."""
    whole = ("--exit-on-error", "--single-transaction")
    _run(database, "pg_restore", *AS_IS, *whole, f"--dbname={_name(database)}", str(folder / FILE))
    with closing(_connect(database)) as connection:
        return _counts(connection)


def make_spare(database: dict[str, Any]) -> str:
    """A new, empty database on the same server, by a name that nothing else bears. MayNot."""
    name = f"backup_trial_{secrets.token_hex(6)}"
    try:
        with closing(_connect(database)) as connection:
            connection.execute(sql.SQL("CREATE DATABASE {} TEMPLATE template0").format(sql.Identifier(name)))
    except psycopg.errors.InsufficientPrivilege as refused:
        role = database.get("USER") or "it connects as"
        raise MayNot(f"The role {role} may not create a database.") from refused
    return name


def drop_spare(database: dict[str, Any], name: str) -> None:
    with closing(_connect(database)) as connection:
        connection.execute(sql.SQL("DROP DATABASE IF EXISTS {} WITH (FORCE)").format(sql.Identifier(name)))


def _name(database: dict[str, Any]) -> str:
    return str(database["NAME"])


def _server(database: dict[str, Any]) -> dict[str, str]:
    """Where the server is and who asks, by libpq's own words."""
    # The name of a setting.
    keys = {"host": "HOST", "port": "PORT", "user": "USER", "password": "PASSWORD"}
    where = {word: str(database[key]) for word, key in keys.items() if database.get(key)}
    return where | {word: str(value) for word, value in database["OPTIONS"].items() if word.startswith("ssl")}


def _run(database: dict[str, Any], program: str, *arguments: str) -> None:
    # Not on the command line, where everyone on the machine would see the password.
    server = {f"PG{word.upper()}": value for word, value in _server(database).items()}
    try:
        done = subprocess.run(  # A command of PostgreSQL, without a shell. # noqa: S603
            [program, *arguments], env={**os.environ, **server}, capture_output=True, text=True, check=False
        )
    except FileNotFoundError as error:
        raise BackupError(f"{program} is missing: install the package postgresql-client") from error
    if done.returncode:
        raise BackupError(f"{program} failed: {done.stderr.strip()}")


def _connect(database: dict[str, Any]) -> psycopg.Connection[tuple[Any, ...]]:
    return psycopg.connect(make_conninfo(dbname=_name(database), **_server(database)), autocommit=True)


def _tables(connection: psycopg.Connection[tuple[Any, ...]]) -> list[str]:
    rows = connection.execute("SELECT tablename FROM pg_tables WHERE schemaname = current_schema()")
    return sorted(name for (name,) in rows)


def _counts(connection: psycopg.Connection[tuple[Any, ...]]) -> Counts:
    counts = {}
    for name in _tables(connection):
        row = connection.execute(sql.SQL("SELECT count(*) FROM {}").format(sql.Identifier(name))).fetchone()
        counts[name] = row[0] if row else 0
    return counts
