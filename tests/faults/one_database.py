"""All rounds on one database, in a process of its own: prints what came of them as JSON."""

from __future__ import annotations

import json
import os
import random
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from tests.faults.cluster import Cluster


def main(database: str, count: int, seed: int, minutes: float) -> dict[str, Any]:
    """Sets the place up, then goes round after round in it, no more than so many minutes."""
    with tempfile.TemporaryDirectory(prefix="faults-") as folder:
        cluster = Cluster() if database == "postgresql" else None
        try:
            point_at(Path(folder), cluster)
            return _rounds(Path(folder), cluster, count, seed, 60 * minutes)
        finally:
            if cluster:
                cluster.remove()


def point_at(folder: Path, cluster: Cluster | None) -> None:
    """What the environment says, also to the processes begun from here."""
    for name in ("DATABASE_URL", "SECRET_KEY", "HTTPS", "ALLOWED_HOSTS", "DEMO_PASSWORD", "MAIL_HOST"):
        os.environ.pop(name, None)
    os.environ |= {
        "DJANGO_SETTINGS_MODULE": "quotes.settings",
        "DATA_DIR": str(folder / "data"),
        "STATIC_ROOT": str(folder / "static"),
        "LOG_LEVEL": os.environ.get("LOG_LEVEL", "CRITICAL"),
    }
    if cluster:
        os.environ["DATABASE_URL"] = cluster.create("workshop")


def _rounds(folder: Path, cluster: Cluster | None, count: int, seed: int, most: float) -> dict[str, Any]:
    import django

    django.setup()
    from tests.faults.found import standing
    from tests.faults.restored import backup_faults
    from tests.faults.rounds import Rounds
    from tests.faults.server import Server
    from tests.faults.told import judged
    from tests.faults.workshop import people, set_up

    set_up()
    began, server = time.monotonic(), Server()
    try:
        all_of_it = Rounds(random.Random(seed), server, people(server.address, seed), folder, cluster)
        for number in range(1, count + 1):
            all_of_it.round(number)
            print(
                f"{'PostgreSQL' if cluster else 'SQLite'}, round {number}: {all_of_it.faults or 'sound'}",
                file=sys.stderr,
            )
            if time.monotonic() - began > most:
                break
        in_backup, faults_of_backup = backup_faults(all_of_it)
        all_of_it.gather()
        all_of_it.look("at the end", all_of_it.sent)
    finally:
        server.kill_all()
    verdict = judged(all_of_it.sent, standing)
    return {
        "rounds": all_of_it.killed.total(),
        "killed": dict(all_of_it.killed),
        "told": verdict.told,
        "untold": verdict.untold,
        "lost": len(verdict.lost),
        "doubled": len(verdict.doubled),
        "halves": len(verdict.halves),
        "looks": all_of_it.looked_through,
        "faults": all_of_it.faults,
        "in_backup": in_backup,
        "faults_of_backup": faults_of_backup,
        "minutes": (time.monotonic() - began) / 60,
    }


if __name__ == "__main__":
    print(json.dumps(main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), float(sys.argv[4]))))
