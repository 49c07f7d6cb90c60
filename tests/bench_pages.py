"""Times pages on ten years of trading: home, lists, search and reports, at 1, 10 and 100 times the size.

`python -m tests.bench_pages [--shares 0.01 0.1 1] [--json FILE]` fills a database for each size, measures it
in a process of its own, and prints a table: on SQLite, or on the PostgreSQL that DATABASE_URL names. It ends
with 1 where a page is later than promised. What a list costs beside a bare view is in `make bench`.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import Any
from urllib.parse import urlsplit, urlunsplit

ROOT = Path(__file__).resolve().parent.parent
SHARES = (0.01, 0.1, 1.0)
RUNS = 9
PROMISED_MS = 300
"""Home, quote list and part search, at the median."""
PAGES: tuple[tuple[str, str, str], ...] = (
    *((f"home, {role}", role, "/") for role in ("owner", "desk", "builder", "books")),
    ("quotes", "desk", "/quotes/"),
    ("quotes, page 40", "desk", "/quotes/?page=40"),
    ("quotes by customer", "desk", "/quotes/?sort=customer"),
    ("quotes found", "desk", "/quotes/?q=marel+tam"),
    ("quotes issued", "desk", "/quotes/?state=issued"),
    ("customers", "desk", "/customers/"),
    ("engines", "desk", "/engines/"),
    ("bench", "builder", "/bench/"),
    ("invoices", "books", "/invoices/"),
    ("invoices found", "books", "/invoices/?q=marel+tam"),
    ("payments", "books", "/payments/"),
    ("journal", "books", "/books/journal/"),
    ("books", "books", "/books/"),
    ("overdue", "books", "/books/overdue/"),
    ("trial balance", "books", "/books/trial-balance/"),
    ("months", "books", "/books/months/"),
    ("find anything", "owner", "/find/?q=marel+tam"),
    ("find a number", "owner", "/find/?q=q20260001"),
    ("parts: one word", "desk", "/catalogue/search/?q=piston"),
    ("parts: three words", "desk", "/catalogue/search/?q=inlet+valve+forged"),
    ("parts: a number", "desk", "/catalogue/search/?q=bd00004"),
    ("parts: nothing fits", "desk", "/catalogue/search/?q=camshft"),
)


@dataclass(frozen=True)
class Timed:
    """One page at one size. Times are medians in milliseconds; `cpu_ms` is that of the site's own process."""

    database: str
    share: float
    page: str
    queries: int
    ms: float
    cpu_ms: float


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.bench_pages", description=__doc__)
    parser.add_argument("--shares", type=float, nargs="+", default=list(SHARES))
    parser.add_argument("--json", type=Path)
    parser.add_argument("--measure", type=float, help=argparse.SUPPRESS)
    given = parser.parse_args()
    if given.measure:
        for each in _measured(given.measure):
            print(json.dumps(asdict(each)), flush=True)
        return 0
    timed = list(rows_of(given.shares))
    print(table(timed))
    if given.json:
        given.json.write_text(json.dumps([asdict(each) for each in timed], indent=1))
    return int(any(_is_late(each) for each in timed))


def rows_of(shares: Sequence[float] = SHARES) -> Iterator[Timed]:
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
            measured = subprocess.run(
                [sys.executable, "-m", "tests.bench_pages", "--measure", str(share)],
                cwd=ROOT,
                env=environment,
                check=True,
                capture_output=True,
                text=True,
            )
            yield from (Timed(**json.loads(line)) for line in measured.stdout.splitlines())


def growth(timed: Iterable[Timed]) -> dict[str, float]:
    """By page, the exponent of its time against the size, from the smallest to the largest."""
    by_page: dict[str, list[Timed]] = {}
    for each in timed:
        by_page.setdefault(each.page, []).append(each)
    return {
        page: math.log(some[-1].ms / some[0].ms) / math.log(some[-1].share / some[0].share)
        for page, some in by_page.items()
        if len(some) > 1
    }


def table(timed: Sequence[Timed]) -> str:
    """Pages down, sizes across: times in milliseconds, queries, and the growth."""
    shares = list(dict.fromkeys(each.share for each in timed))
    exponents, times = growth(timed), {(each.page, each.share): each for each in timed}
    heads = ["page", *(f"{share * 100:g} x" for share in shares), "queries", "growth"]
    lines = [f"| {' | '.join(heads)} |", "|---" * len(heads) + "|"]
    for page in dict.fromkeys(each.page for each in timed):
        cells = [page, *(f"{times[page, share].ms:.0f} ms" for share in shares)]
        cells += ["/".join(dict.fromkeys(str(times[page, share].queries) for share in shares))]
        cells += [f"{exponents[page]:.2f}" if page in exponents else ""]
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines)


def _is_late(each: Timed) -> bool:
    return each.page.startswith(("home", "quotes", "parts")) and each.ms > PROMISED_MS


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


def _measured(share: float) -> Iterator[Timed]:
    """In the process that the database is set for."""
    _settle()
    from django.contrib.auth.models import User
    from django.db import connection
    from django.test import Client

    clients = {}
    for role in dict.fromkeys(role for _, role, _ in PAGES):
        clients[role] = Client()
        clients[role].force_login(User.objects.get(username=role))
    for page, role, address in PAGES:
        yield replace(_time(clients[role], address), database=connection.vendor, share=share, page=page)


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
    sys.exit(main())
