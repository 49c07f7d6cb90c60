"""The rounds on one database: people work, something is killed, it starts again, the record is looked at."""

from __future__ import annotations

import random
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from django.db import connection

from tests.faults.acts import Person
from tests.faults.beside import kill_backup, kill_export, kill_import, kill_price_import, unfinished_exports
from tests.faults.cluster import Cluster
from tests.faults.found import standing
from tests.faults.processes import kill
from tests.faults.server import Server
from tests.faults.told import Sent, judged
from tests.faults.workshop import at_work, record_faults

KILLED = {
    "a worker": 9,
    "web and workers": 3,
    "the master alone": 1,
    "a backup": 1,
    "an import": 2,
    "an import of prices": 3,
    "an export": 2,
}
KILLED_TOO = {"PostgreSQL": 4}
LONGEST_LOAD = 1.5


@dataclass
class Rounds:
    """All that is at hand in a round, and what has been found so far."""

    chance: random.Random
    server: Server
    people: list[Person]
    data: Path
    cluster: Cluster | None = None
    sent: list[Sent] = field(default_factory=list)
    killed: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)
    looked_through: int = 0

    def round(self, number: int) -> None:
        """Work, a kill, a new start, the forms sent again, a look."""
        kinds = KILLED | (KILLED_TOO if self.cluster else {})
        what = self.chance.choices(list(kinds), list(kinds.values()))[0]
        with at_work(self.people):
            time.sleep(self.chance.uniform(0.2, LONGEST_LOAD))
            self._kill(what, number)
            time.sleep(self.chance.uniform(0.0, 0.3))
        self._start_again(what)
        for one in self.people:
            one.send_again()
        self.killed[what] += 1
        self.faults += [f"round {number}: {fault}" for fault in unfinished_exports()]
        self.look(f"round {number}, {what} killed", self.gather())

    def gather(self) -> list[Sent]:
        """What was sent since this was last asked."""
        new = [sent for one in self.people for sent in one.sent]
        for one in self.people:
            one.sent.clear()
            self.faults += [f"a fault of the program at {address}" for address in one.browser.broken]
            one.browser.broken.clear()
        self.sent += new
        return new

    def look(self, when: str, sent: list[Sent]) -> None:
        """What was sent against what stands, and `verify`."""
        found = [*judged(sent, standing).faults, *record_faults()]
        self.looked_through += 1
        self.faults += [f"{when}: {fault}" for fault in found]

    def _kill(self, what: str, number: int) -> None:
        if what == "a worker":
            kill(self.chance.choice(self.server.workers))
        elif what == "web and workers":
            self.server.kill_all()
        elif what == "the master alone":
            self.server.kill_master()
        elif what == "a backup":
            kill_backup(self.chance, self.data, number)
        elif what == "an import":
            self.people[0].sent.extend(kill_import(self.chance, self.data, number))
        elif what == "an import of prices":
            self.people[0].sent.extend(kill_price_import(self.chance, self.data, number))
        elif what == "an export":
            kill_export(self.chance)
        elif self.cluster:
            connection.close()
            self.cluster.kill()

    def _start_again(self, what: str) -> None:
        if what == "PostgreSQL" and self.cluster:
            self.cluster.start()
        if what in ("web and workers", "the master alone"):
            self.server.start()
        self.server.wait_for_answer()
