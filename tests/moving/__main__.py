"""Moves a year of demo trading to PostgreSQL and writes into DEVELOPERS.md what came of it: `make move`.

Three moves: into an empty database; once more into the same; and of a copy in which one value was changed
behind the record's back, so that nothing may be left of it.
"""

from __future__ import annotations

import os
import resource
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from contextlib import closing
from pathlib import Path

import psycopg

ROOT = Path(__file__).resolve().parents[2]
FILE = ROOT / "DEVELOPERS.md"
BEGIN, END = "<!-- move: written by make move -->", "<!-- end of move -->"
SHOWN = 12
"""So many of the largest tables stand in the report."""


def main() -> int:
    """1 where a move that should have come through did not, or the other way round."""
    url = os.environ["DATABASE_URL"]
    with tempfile.TemporaryDirectory(prefix="moved-") as folder:
        data = Path(folder) / "data"
        data.mkdir()
        _manage(data, "migrate", "--verbosity", "0")
        _manage(data, "demo", "--style", "sales-tax", "--out", f"{folder}/out")
        before = _of_a_processor()
        moved = _manage(data, "move_to_postgres", "--to", url)
        seconds = _of_a_processor() - before
        again = _manage(data, "move_to_postgres", "--to", url)
        spare = _spare(url)
        harmed = _manage(_harmed(data, Path(folder) / "harmed"), "move_to_postgres", "--to", spare)
        left = _tables(spare)
    faults = [
        *(["the move did not come through"] if moved.returncode else []),
        *(["a database with data was not refused"] if "tables already" not in again.stderr else []),
        *(["a record that is not sound was moved"] if not harmed.returncode else []),
        *([f"{left} tables were left of a move that failed"] if left else []),
    ]
    print(moved.stdout, moved.stderr, again.stderr, harmed.stderr, *faults, sep="\n")
    if not faults:
        _keep(_report(moved.stdout, seconds, harmed.stderr))
    return int(bool(faults))


def _manage(data: Path, *words: str) -> subprocess.CompletedProcess[str]:
    names = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    command = [sys.executable, "manage.py", *words]
    return subprocess.run(
        command, cwd=ROOT, env=names | {"DATA_DIR": str(data)}, capture_output=True, text=True, check=False
    )


def _of_a_processor() -> float:
    """What all commands so far took of one; the server's own not counted."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _spare(url: str) -> str:
    with closing(psycopg.connect(url, autocommit=True)) as server:
        server.execute("CREATE DATABASE moved_and_failed TEMPLATE template0")
    return f"{url.rpartition('/')[0]}/moved_and_failed"


def _tables(url: str) -> int:
    with closing(psycopg.connect(url)) as server:
        found = server.execute("SELECT count(*) FROM pg_tables WHERE schemaname = 'public'").fetchone()
    return int(found[0]) if found else 0


def _harmed(data: Path, harmed: Path) -> Path:
    """A copy in which a document was paid a little less than its record says."""
    shutil.copytree(data, harmed)
    with closing(sqlite3.connect(harmed / "workshop.sqlite3")) as file:
        file.execute("DROP TRIGGER quotes_payment_frozen")
        first = "(SELECT min(id) FROM quotes_payment)"
        file.execute(f"UPDATE quotes_payment SET amount = amount - 1 WHERE id = {first}")
        file.commit()
    return harmed


def _report(said: str, seconds: float, harmed: str) -> str:
    lines = said.splitlines()
    tables = [line.split() for line in lines if line.startswith(("quotes_", "catalogue_"))]
    largest = sorted(tables, key=lambda words: -int(words[1]))[:SHOWN]
    total = next(line for line in lines if "the same on both sides" in line)
    sound = next(line for line in lines if line.startswith("Sound:")).removeprefix("Sound: ")
    looked_at = ", ".join(count for count in sound.split(", ") if not count.startswith("0 "))
    rows = [f"| `{table}` | {here} | {there} | `{checksum}` |" for table, here, there, checksum in largest]
    refused = harmed.strip().splitlines()[-1].removeprefix("CommandError: ")
    head = (
        f"{time.strftime('%-d %B %Y')}: {total[:-1]}. It took {seconds:.0f} s of a processor, the server's\n"
        f"own not counted. `verify` there is clean, of {looked_at}.\n"
        "A second move into the same database was refused. Of a copy in which one payment was changed\n"
        f"nothing was left: “{refused}” The {SHOWN} largest tables:"
    )
    return "\n".join([head, "", "| table | rows | rows there | checksum |", "|---|---|---|---|", *rows])


def _keep(report: str) -> None:
    before, rest = FILE.read_text(encoding="utf-8").split(BEGIN)
    _, after = rest.split(END)
    FILE.write_text(f"{before}{BEGIN}\n{report}\n{END}{after}", encoding="utf-8")


if __name__ == "__main__":
    sys.exit(main())
