"""Kills workers of the background while they are at it: each work must be kept once. Part of `make faults`.

Twelve works of a few seconds stand in the queue and two workers do them, on SQLite as well; every second or
so one is killed and another started. At the end each work must be done, and what it keeps stand once.
"""

from __future__ import annotations

import argparse
import os
import random
import subprocess
import sys
import tempfile
import time

from tests.faults.processes import kill
from tests.faults.server import ROOT

WORKS, WORKERS = 12, 2
PATIENCE_SECONDS = 1800
TRIES = "1000"
"""Here a work is killed far more often than one that ends its process would be begun."""


def main() -> int:
    """1 where a work was not done, or not once."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=int(time.time()))
    chance = random.Random(parser.parse_args().seed)
    with tempfile.TemporaryDirectory(prefix="workers-") as folder:
        if "DATABASE_URL" not in os.environ:
            os.environ["DATA_DIR"] = folder
        os.environ |= {"BACKGROUND": "worker", "BACKGROUND_SILENT": "4", "BACKGROUND_TRIES": TRIES}
        return _rounds(chance)


def _rounds(chance: random.Random) -> int:
    import django

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "quotes.settings")
    django.setup()
    from django.core.management import call_command
    from django.db import connection

    from quotes.actions.background import run_later
    from quotes.models import BackgroundWork, Counter
    from tests.background.works import KIND, takes_a_while

    call_command("migrate", verbosity=0, skip_checks=True)
    for number in range(WORKS):
        told = {"number": number, "seconds": chance.uniform(1, 4)}
        run_later(takes_a_while, told, key=f"work {number}", about=f"Work {number}", by=None)
    began, killed = time.monotonic(), 0
    workers = [_worker() for _ in range(WORKERS)]
    while BackgroundWork.objects.open().exists() and time.monotonic() - began < PATIENCE_SECONDS:
        time.sleep(chance.uniform(0.5, 3))
        running = BackgroundWork.objects.filter(state="running").values_list("holder", flat=True)
        at_it = {int(holder.split()[1]) for holder in running}
        busy = [place for place, one in enumerate(workers) if one.pid in at_it]
        if killed < WORKS and busy:
            place = chance.choice(busy)
            kill(workers[place].pid)
            workers[place].wait()
            workers[place], killed = _worker(), killed + 1
    for one in workers:
        kill(one.pid)
        one.wait()
    kept = dict(Counter.objects.filter(kind=KIND).values_list("year", "value"))
    tries = list(BackgroundWork.objects.values_list("tries", flat=True))
    done = BackgroundWork.objects.filter(state="done").count()
    print(
        f"{connection.vendor}: {WORKS} works, {killed} workers killed, begun {sum(tries)} times, done {done},"
        f" kept {sorted(kept.values())}, {time.monotonic() - began:.0f} s"
    )
    return int(done != WORKS or kept != dict.fromkeys(range(WORKS), 1))


def _worker() -> subprocess.Popen[bytes]:
    return subprocess.Popen([sys.executable, "manage.py", "work"], cwd=ROOT, stdout=subprocess.DEVNULL)


if __name__ == "__main__":
    sys.exit(main())
