"""What runs beside the pages and is killed half way: a backup, an import, an export of the books."""

from __future__ import annotations

import csv
import random
import subprocess
import sys
import time
from pathlib import Path

from django.db import connection

from quotes.actions.books.batches import finish_batch
from quotes.imports.customer_columns import COLUMNS
from quotes.models import BatchState, ExportBatch
from tests.faults.acts import priced
from tests.faults.found import IN_A_FILE, IN_A_PRICE_LIST
from tests.faults.processes import children, kill, wait_gone
from tests.faults.server import ROOT
from tests.faults.told import Sent

LONGEST = 5.0
"""Seconds until a command is killed; the busiest of them takes about so long beside people at work."""


def kill_backup(chance: random.Random, data: Path, number: int) -> None:
    _killed(chance, "manage.py", "backup", str(data / f"killed-{number}"))


def kill_import(chance: random.Random, data: Path, number: int) -> list[Sent]:
    """A file of customers, there whole or not at all; every second that was cut off is tried again."""
    mark, file = f"file-{number:04}", data / f"customers-{number}.csv"
    with file.open("w", newline="") as out:
        table = csv.writer(out)
        table.writerow([column.english for column in COLUMNS])
        blanks = [""] * (len(COLUMNS) - 1)
        table.writerows([f"{mark} {line:04}", *blanks] for line in range(IN_A_FILE))
    told = _imported(chance, "import_customers", str(file), "--apply")
    return [Sent("import of customers", mark, told=told)]


def kill_price_import(chance: random.Random, data: Path, number: int) -> list[Sent]:
    """A supplier's list, taken in whole or not at all; every second that was cut off is tried again."""
    mark = f"list-{number:04}"
    file = data / f"{mark}.csv"
    file.write_text(priced(mark, IN_A_PRICE_LIST))
    told = _imported(chance, "import_prices", str(file), "--supplier", "main_parts", "--part")
    return [Sent("import of prices", mark, told=told)]


def _imported(chance: random.Random, *command: str) -> bool:
    """Killed on the way, and then perhaps done again; whether it said that it was done."""
    told = _killed(chance, "manage.py", *command)
    if not told and chance.random() < 0.5:
        again = [sys.executable, "manage.py", *command]
        told = not subprocess.run(again, cwd=ROOT, capture_output=True, check=False).returncode
    return told


def kill_export(chance: random.Random) -> None:
    """All that is new in the books, in a process of its own."""
    _killed(chance, "-m", "tests.faults.export")


def unfinished_exports() -> list[str]:
    """Batches that were cut off and can't be made now; whoever opens one is offered to make it again."""
    try:
        waiting = list(ExportBatch.objects.filter(state=BatchState.WAITING).values_list("pk", flat=True))
        made = [finish_batch(batch_id=pk) for pk in waiting]
        return [f"{one.number}: {one.failed_because}" for one in made if one.state != BatchState.READY]
    finally:
        connection.close()


def _killed(chance: random.Random, *command: str) -> bool:
    """Begin it and kill it at some moment; whether it had come to its end before that."""
    quiet = subprocess.DEVNULL
    with subprocess.Popen([sys.executable, *command], cwd=ROOT, stdout=quiet, stderr=quiet) as run:
        time.sleep(chance.uniform(0.5, LONGEST))
        pids = [run.pid, *children(run.pid)]
        ended = run.poll() == 0
        kill(*pids)
        wait_gone(*pids[1:])
    return ended
