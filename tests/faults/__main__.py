"""Kills processes while people work and writes what came of it into DEVELOPERS.md: `make faults`."""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import time
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
    parser.add_argument("--no-report", action="store_false", dest="report")
    asked = parser.parse_args()
    names = DATABASES if asked.database == "both" else (asked.database,)
    found = {name: _rounds(name, asked.rounds, asked.seed) for name in names}
    for name, told in found.items():
        print(f"{name}: {json.dumps(told, indent=1)}")
    if asked.report:
        write(found, asked.seed)
    return int(any(told["faults"] or told["faults_of_backup"] for told in found.values()))


def _rounds(database: str, count: int, seed: int) -> dict[str, Any]:
    command = [sys.executable, "-m", "tests.faults.one_database", database, str(count), str(seed)]
    run = subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, text=True, check=True)
    told: dict[str, Any] = json.loads(run.stdout)
    return told


if __name__ == "__main__":
    sys.exit(main())
