"""`python -m tests.bench_pages [--shares 0.01 1] [--json FILE] [--write]`: pages on ten years of trading.

Measures on SQLite, or on the PostgreSQL that DATABASE_URL names; with --write on both, and writes the report
into DEVELOPERS.md. Ends with 1 where a page is later than promised. What a list costs beside a bare view
is in `make bench`.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from time import monotonic

from django.utils import timezone

from tests.bench_pages.measure import rows_of
from tests.bench_pages.pages import Timed
from tests.bench_pages.report import as_text, faults, keep_text

SHARES = (0.01, 1.0)


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.bench_pages", description=__doc__)
    parser.add_argument("--shares", type=float, nargs="+", default=list(SHARES))
    parser.add_argument("--json", type=Path)
    parser.add_argument("--write", action="store_true", help="on both databases, into DEVELOPERS.md")
    given = parser.parse_args()
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "quotes.settings")
    began = monotonic()
    timed = _of_both(given.shares) if given.write else list(rows_of(given.shares))
    text = as_text(timed, timezone.localdate(), monotonic() - began)
    print(text)
    if given.json:
        given.json.write_text(json.dumps([asdict(each) for each in timed], indent=1))
    if given.write:
        keep_text(text)
    return int(bool(faults(timed)))


def _of_both(shares: Sequence[float]) -> list[Timed]:
    """On SQLite, then on a throw-away PostgreSQL, each in processes of its own."""
    place = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    found = []
    with tempfile.TemporaryDirectory(prefix="quotes-pages-") as folder:
        kept = Path(folder) / "timed.json"
        asked = ["-m", "tests.bench_pages", "--json", str(kept), "--shares", *map(str, shares)]
        for server in ([], [".ci/postgres"]):
            # It says by its own end that something is late, which is said once more here.
            subprocess.run([*server, sys.executable, *asked], env=place, check=False, stdout=sys.stderr)
            found += [Timed(**each) for each in json.loads(kept.read_text())]
            kept.unlink()
    return found


if __name__ == "__main__":
    sys.exit(main())
