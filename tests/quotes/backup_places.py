"""An empty place beside the test database, of the same kind, for a backup to be put back into."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import psycopg
from django.conf import settings
from django.db import connection
from psycopg import sql

NAME = "put_back"


@dataclass(frozen=True)
class Place:
    """A database and a data folder that nothing stands in yet."""

    database: dict[str, Any]
    data: Path

    @property
    def media(self) -> Path:
        return self.data / "media"

    def manage(self, *words: str) -> subprocess.CompletedProcess[str]:
        """Runs a command of manage.py with this place as the site's own."""
        environment = {name: value for name, value in os.environ.items() if name != "DJANGO_SETTINGS_MODULE"}
        environment |= {"DATA_DIR": str(self.data)}
        if connection.vendor == "postgresql":
            host = "{USER}:{PASSWORD}@{HOST}:{PORT}".format(**self.database)
            environment["DATABASE_URL"] = f"postgres://{host}/{NAME}"
        command = [sys.executable, str(settings.BASE_DIR / "manage.py"), *words]
        return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)

    def rows(self, query: str) -> list[tuple[Any, ...]]:
        """What a query answers here, asked past Django."""
        if connection.vendor == "sqlite":
            with closing(sqlite3.connect(self.database["NAME"])) as database:
                return database.execute(query).fetchall()
        with closing(_server(self.database, NAME)) as server:
            return server.execute(query.encode()).fetchall()


@contextmanager
def empty_place(data: Path) -> Iterator[Place]:
    """The place, gone again afterwards."""
    if connection.vendor == "sqlite":
        yield Place({**connection.settings_dict, "NAME": str(data / "workshop.sqlite3")}, data)
        return
    with closing(_server(connection.settings_dict, "postgres")) as server:
        server.execute(sql.SQL("CREATE DATABASE {}").format(sql.Identifier(NAME)))
        try:
            yield Place({**connection.settings_dict, "NAME": NAME}, data)
        finally:
            server.execute(sql.SQL("DROP DATABASE {} WITH (FORCE)").format(sql.Identifier(NAME)))


def _server(database: dict[str, Any], name: str) -> psycopg.Connection[tuple[Any, ...]]:
    return psycopg.connect(
        dbname=name,
        host=database["HOST"],
        port=database["PORT"],
        user=database["USER"],
        password=database["PASSWORD"],
        autocommit=True,
    )
