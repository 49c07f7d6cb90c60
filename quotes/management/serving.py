"""How the site is served: one command line, for `serve` and for the tests that drive what it starts."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from django.conf import settings

WORKERS = 2
THREADS = 4
ENVIRONMENT = {"MALLOC_ARENA_MAX": "2", "DATABASE_PATIENCE": "60"}
"""Without the first each thread has a heap of its own, and keeps what the largest page took. By the second a
page waits no longer for one answer of the database; a command, or a worker, as long as it takes."""


def gunicorn(address: str, *, site: str = "quotes.wsgi", more: Sequence[str] = ()) -> list[str]:
    """The command that serves the site at `address` (host:port)."""
    return [
        *(sys.executable, "-m", "gunicorn", site, "--chdir", str(settings.BASE_DIR)),
        *("--bind", address, "--workers", str(WORKERS), "--threads", str(THREADS)),
        # The sums load scipy: once, before the workers part.
        *("--preload", "--log-level", "warning", "--config", "python:quotes.management.gunicorn_site"),
        *more,
    ]
