"""Fills a database for each size, and measures every page in a process of its own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, replace
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import Any
from urllib.parse import urlsplit, urlunsplit

from tests.bench_pages.pages import PAGES, Timed

ROOT = Path(__file__).resolve().parent.parent.parent
RUNS = 7


def rows_of(shares: Sequence[float]) -> Iterator[Timed]:
    """Every page at every size, on the database that DATABASE_URL names, else on SQLite."""
    for share in shares:
        with _database(share) as environment:
            for command in (["migrate", "-v0"], ["load_years", "--share", str(share)]):
                subprocess.run(
                    [sys.executable, "manage.py", *command],
                    cwd=ROOT,
                    env=environment,
                    check=True,
                    stdout=subprocess.DEVNULL,
                )
            _settle_down(environment)
            measured = subprocess.run(
                [sys.executable, "-m", "tests.bench_pages.measure", str(share)],
                cwd=ROOT,
                env=environment,
                check=True,
                capture_output=True,
                text=True,
            )
            yield from (Timed(**json.loads(line)) for line in measured.stdout.splitlines())


@contextmanager
def _database(share: float) -> Iterator[dict[str, str]]:
    """An empty database, gone at the end: what a process needs in its environment to use it."""
    with tempfile.TemporaryDirectory(prefix="quotes-bench-") as folder:
        environment = {**os.environ, "DATA_DIR": folder, "DJANGO_SETTINGS_MODULE": "quotes.settings"}
        url = os.environ.get("DATABASE_URL")
        if not url:
            yield environment
            return
        import psycopg

        name = f"bench_{share * 100:g}".replace(".", "_")
        with psycopg.connect(url, autocommit=True) as connection:
            connection.execute(f"DROP DATABASE IF EXISTS {name}")
            connection.execute(f"CREATE DATABASE {name}")
            yield environment | {"DATABASE_URL": urlunsplit(urlsplit(url)._replace(path=f"/{name}"))}
            connection.execute(f"DROP DATABASE {name} WITH (FORCE)")


def _settle_down(environment: dict[str, str]) -> None:
    """What PostgreSQL has done beside the work after ten years, and would do now beside what is measured."""
    if url := environment.get("DATABASE_URL"):
        import psycopg

        with psycopg.connect(url, autocommit=True) as connection:
            connection.execute("VACUUM (ANALYZE)")
            connection.execute("CHECKPOINT")


def measured(share: float) -> Iterator[Timed]:
    """In the process that the database is set for."""
    _settle()
    from django.contrib.auth.models import User
    from django.db import connection
    from django.test import Client

    from quotes.models import Quote

    clients = {}
    for role in dict.fromkeys(role for _, role, _ in PAGES):
        clients[role] = Client()
        clients[role].force_login(User.objects.get(username=role))
    newest = Quote.objects.open().order_by("-created_at").values_list("pk", flat=True)[0]
    for page, role, address in PAGES:
        timed = _time(clients[role], address.format(quote=newest))
        yield replace(timed, database=connection.vendor, share=share, page=page)


def _settle() -> None:
    import django
    from django.conf import settings

    django.setup()
    settings.ALLOWED_HOSTS = ["testserver"]
    settings.STORAGES = settings.STORAGES | {
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    }


def _time(client: Any, address: str) -> Timed:
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    for _ in range(2):
        answer = client.get(address)
    assert answer.status_code in {200, 302}, (address, answer.status_code)
    walls, cpus = [], []
    for _ in range(RUNS):
        wall, cpu = perf_counter(), process_time()
        client.get(address)
        walls.append(perf_counter() - wall)
        cpus.append(process_time() - cpu)
    with CaptureQueriesContext(connection) as seen:
        client.get(address)
    return Timed("", 0, "", len(seen), 1000 * median(walls), 1000 * median(cpus))


if __name__ == "__main__":
    for each in measured(float(sys.argv[1])):
        print(json.dumps(asdict(each)), flush=True)
