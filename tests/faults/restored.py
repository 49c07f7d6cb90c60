"""A backup that is taken while people work, put back into a place of its own, and looked through there."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from dataclasses import asdict

from tests.faults.rounds import Rounds
from tests.faults.server import ROOT
from tests.faults.told import Sent
from tests.faults.workshop import at_work


def backup_faults(rounds: Rounds) -> tuple[int, list[str]]:
    """How many things must stand in the backup, and what was found wrong with it."""
    folder, place = rounds.data / "backup", rounds.data / "put-back"
    with at_work(rounds.people):
        time.sleep(2)
        before = [*rounds.sent, *(one for person in rounds.people for one in list(person.sent) if one.told)]
        _manage({}, "backup", str(folder))
        time.sleep(0.5)
    place.mkdir()
    there = {"DATA_DIR": str(place)}
    if rounds.cluster:
        there["DATABASE_URL"] = rounds.cluster.create("put_back")
    _manage(there, "restore", str(folder))
    return len({(one.what, one.mark) for one in before if one.told}), _looked_at(there, before)


def _manage(there: dict[str, str], *words: str) -> None:
    subprocess.run(
        [sys.executable, "manage.py", *words],
        cwd=ROOT,
        env=os.environ | there,
        check=True,
        stdout=subprocess.DEVNULL,
    )


def _looked_at(there: dict[str, str], sent: list[Sent]) -> list[str]:
    """What a process says that has the place for its own."""
    run = subprocess.run(
        [sys.executable, "-m", "tests.faults.look"],
        cwd=ROOT,
        env=os.environ | there,
        input=json.dumps([asdict(one) for one in sent]),
        check=False,
        capture_output=True,
        text=True,
    )
    if run.returncode:
        raise RuntimeError(run.stderr)
    found: list[str] = json.loads(run.stdout)
    return [f"backup: {one}" for one in found]
