"""The settings of a database, from its address: shared connections that wait for nobody for ever."""

from __future__ import annotations

import os
import socket
from pathlib import Path
from typing import Any

import dj_database_url

LOCK_SECONDS = 20
"""For a lock, on both databases: then it is said that the site is held up."""
CONNECT_SECONDS = 5
POOL = 6
"""Connections that a process holds at most: one for each thread of `manage.py serve`, and two for work."""
POOL_WAIT_SECONDS = 10


def configured(url: str) -> dict[str, Any]:
    """PostgreSQL, or a SQLite file elsewhere."""
    database: dict[str, Any] = {**dj_database_url.parse(url, conn_health_checks=True)}
    database["ENGINE"] = database["ENGINE"].replace("django.db.backends", "quotes.database")
    if database["ENGINE"].endswith("sqlite3"):
        return sqlite_file(Path(database["NAME"]))
    return database | {"OPTIONS": _options() | database.get("OPTIONS", {}), "CONN_MAX_AGE": 0}


def sqlite_file(path: Path) -> dict[str, Any]:
    """A SQLite file beside the data."""
    return {
        "ENGINE": "quotes.database.sqlite3",
        "NAME": str(path),
        "CONN_MAX_AGE": 0,
        # Deferred transactions fail under two writers at once; FULL keeps a promise through a power cut.
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": LOCK_SECONDS,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;",
        },
    }


def _options() -> dict[str, Any]:
    """How PostgreSQL is spoken to. DATABASE_PATIENCE is how many seconds a page waits for one answer."""
    patience = int(os.environ.get("DATABASE_PATIENCE", "0")) * 1000
    session = {
        "lock_timeout": LOCK_SECONDS * 1000,
        "statement_timeout": patience,
        "idle_in_transaction_session_timeout": patience,
        # A page of a list is chosen by its keys and then read with ten tables beside it. With the usual eight
        # they would all be joined in full before the keys are looked at.
        "join_collapse_limit": 12,
        "from_collapse_limit": 12,
        "geqo_threshold": 14,
    }
    options: dict[str, Any] = {
        "application_name": f"quotes@{socket.gethostname()}"[:60],
        "connect_timeout": CONNECT_SECONDS,
        "options": " ".join(f"-c {name}={value}" for name, value in session.items()),
        # A machine that is gone without a word is noticed within a minute.
        "keepalives_idle": 30,
        "keepalives_interval": 10,
        "keepalives_count": 3,
    }
    if size := int(os.environ.get("DATABASE_POOL", POOL)):
        options["pool"] = {"min_size": 1, "max_size": size, "timeout": POOL_WAIT_SECONDS}
    return options
