"""The site on a port of its own, for scripts that look at it from outside."""

from __future__ import annotations

import os
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager

PORT = os.environ.get("PICTURES_PORT", "8765")
SITE = f"http://127.0.0.1:{PORT}"


@contextmanager
def served() -> Iterator[None]:
    """For as long as the pictures take."""
    server = subprocess.Popen(
        [sys.executable, "manage.py", "serve", "--port", PORT], stdout=subprocess.DEVNULL
    )
    try:
        for _ in range(100):
            try:
                urllib.request.urlopen(f"{SITE}/robots.txt", timeout=1).close()
                break
            except urllib.error.URLError:
                time.sleep(0.2)
        yield
    finally:
        server.terminate()
        server.wait()
