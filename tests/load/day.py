"""Thirty people at once: signed in one after another, each at work with pauses to read and to think."""

from __future__ import annotations

import random
import threading
import time
from pathlib import Path

from quotes.management.commands.load_demo import PASSWORD
from quotes.models import Customer, Engine, Job
from tests.faults.acts import Person
from tests.faults.browser import Refused, Unanswered
from tests.load.measured import ALL, Measured, MeasuredBrowser
from tests.load.work import ROLES, Role

PAUSE_S = (2.0, 6.0)
"""Between two pages of one person: evenly spread, so a page every four seconds."""
COMING_S = 20
"""Within which everybody has begun to sign in."""
MEMORY_EVERY_S = 10
P95_S = 1.0


class Day:
    """The people, what they met, and what the workers held, by the second."""

    def __init__(self, site: str, users: int, seed: int) -> None:
        customers, engines = _known()
        self.measured = Measured()
        self.refused: list[str] = []
        self.memory: list[tuple[float, tuple[int, ...]]] = []
        self._stop = threading.Event()
        self._people = [self._person(site, role, place, seed) for place, role in enumerate(_seats(users))]
        for place, (_, one) in enumerate(self._people):
            # An engine comes in once: each has his own to take in.
            one.customers, one.engines = list(customers), engines[place :: len(self._people)]

    def _person(self, site: str, role: Role, place: int, seed: int) -> tuple[Role, Person]:
        name = f"{role.name}{place}"
        browser = MeasuredBrowser(site, self.measured)
        return role, Person(name, browser, random.Random(f"{seed} {name}"))

    @property
    def sound(self) -> bool:
        """No error, and soon enough."""
        return not self.measured.wrong and self.measured.part(ALL, 0.95) < P95_S

    def run(self, minutes: float, workers: list[int]) -> None:
        """Everybody at work for so long; memory is read all the while."""
        threads = [threading.Thread(target=self._work, args=each, daemon=True) for each in self._people]
        for thread in threads:
            thread.start()
        began = time.monotonic()
        while (now := time.monotonic() - began) < minutes * 60:
            self.memory.append((now, tuple(map(resident, workers))))
            time.sleep(min(MEMORY_EVERY_S, max(0.1, minutes * 60 - now)))
        self.memory.append((time.monotonic() - began, tuple(map(resident, workers))))
        self._stop.set()
        for thread in threads:
            thread.join()

    def _work(self, role: Role, one: Person) -> None:
        # They come in one after another.
        self._stop.wait(one.chance.uniform(0, COMING_S))
        weights, acts = zip(*role.acts, strict=True)
        try:
            one.browser.send(one.browser.form("/sign-in/", username=role.sign_in, password=PASSWORD))
        except (Refused, Unanswered) as wrong:
            self.refused.append(f"{one.name}: {wrong}")
        while not self._stop.is_set():
            try:
                one.chance.choices(acts, weights)[0](one)
            except (Refused, Unanswered) as wrong:
                self.refused.append(f"{one.name}: {str(wrong)[:300]}")
            self._stop.wait(one.chance.uniform(*PAUSE_S))


def _known() -> tuple[list[str], list[str]]:
    """The customers that there are, and the engines that are not on the bench."""
    here = Job.objects.filter(left_at=None).values("engine")
    engines = Engine.objects.exclude(pk__in=here).order_by("pk").values_list("pk", flat=True)
    return [str(pk) for pk in Customer.objects.values_list("pk", flat=True)], [str(pk) for pk in engines]


def _seats(users: int) -> list[Role]:
    """So many people, in the proportion of the roles."""
    whole = sum(role.share for role in ROLES)
    seats = [role for role in ROLES for _ in range(max(1, round(users * role.share / whole)))]
    return seats[:users]


def resident(pid: int) -> int:
    """The memory of a process in MB, what it shares counted whole; 0 where it is gone."""
    try:
        status = Path(f"/proc/{pid}/status").read_text()
    except OSError:
        return 0
    return int(status.partition("VmRSS:")[2].split()[0]) // 1024
