"""Kills processes while people work and writes what came of it into DEVELOPERS.md: `make faults`."""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import time
from collections.abc import Sequence
from typing import Any

from tests.faults.report import write
from tests.faults.server import ROOT

DATABASES = ("sqlite", "postgresql")


def main() -> int:
    """1 where anything was lost, doubled, half kept or found unsound."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=100)
    parser.add_argument("--database", choices=[*DATABASES, "both"], default="both")
    parser.add_argument("--seed", type=int, default=int(time.time()), help="of what is killed and when")
    parser.add_argument("--minutes", type=float, default=600, help="stop after so many on each database")
    parser.add_argument("--no-report", action="store_false", dest="report")
    asked = parser.parse_args()
    names = DATABASES if asked.database == "both" else (asked.database,)
    found = _rounds(names, asked)
    for name, told in found.items():
        print(f"{name}: {json.dumps(told, indent=1)}")
    if asked.report:
        write(found, asked.seed)
    return int(any(told["faults"] or told["faults_of_backup"] for told in found.values()))


def _rounds(names: Sequence[str], asked: argparse.Namespace) -> dict[str, dict[str, Any]]:
    """What each database tells, both at one time."""
    command = [sys.executable, "-m", "tests.faults.one_database"]
    words = [str(asked.rounds), str(asked.seed), str(asked.minutes)]
    running = {
        name: subprocess.Popen([*command, name, *words], cwd=ROOT, stdout=subprocess.PIPE, text=True)
        for name in names
    }
    told = {name: run.communicate()[0] for name, run in running.items()}
    return {name: json.loads(said) for name, said in told.items()}


if __name__ == "__main__":
    sys.exit(main())
