"""Eight processes that issue documents from one database and are killed while they do.

Called with the database's name and a seed. Half of them are killed in the moment between their number and
their commit, the others at any time. Prints how many were killed in that moment.
"""

from __future__ import annotations

import mmap
import os
import random
import signal
import sys
import time
from importlib import import_module
from types import SimpleNamespace

WRITERS = 8
BETWEEN = 1
"""What a writer's byte says while it has a number and has not committed."""
COMMITTED = WRITERS
"""The byte that says that somebody has committed since it was looked at."""
PATIENCE = 10
"""Seconds: longer than anything here takes on a busy machine."""


def write(place: int, state: mmap.mmap, seed: int) -> None:
    """Issue every draft that is open, in an order of its own, until killed or done."""
    from quotes.actions.books import drawing
    from quotes.actions.books.issuing import issue_invoice
    from quotes.calc.invoice.values import InvoiceSheet
    from quotes.models import InvoiceDraft
    from tests.books.cast import NOW
    from tests.cast import books

    chance = random.Random(seed + place)

    def drawn(sheet: InvoiceSheet) -> SimpleNamespace:
        state[place] = BETWEEN
        time.sleep(chance.uniform(0.002, 0.02))
        return SimpleNamespace(pdf=f"%PDF {sheet.number}".encode(), xml=b"<Invoice/>")

    drawing.drawn, drawing.warm_up = drawn, lambda: None  # type: ignore[assignment]
    by, drafts = books(), list(InvoiceDraft.objects.order_by("pk"))
    chance.shuffle(drafts)
    for draft in drafts:
        issue_invoice(draft=draft, by=by, now=NOW)
        state[place], state[COMMITTED] = 0, 1


def started(state: mmap.mmap, seed: int) -> list[int]:
    """The process numbers of the writers."""
    found = []
    for place in range(WRITERS):
        pid = os.fork()
        if not pid:
            write(place, state, seed)
            os._exit(0)
        found.append(pid)
    return found


def killed_between(pids: list[int], state: mmap.mmap, seed: int) -> int:
    """Kill every writer; gives how many had a number and had not committed."""
    chance, between, living = random.Random(seed), 0, list(range(len(pids)))
    for turn in range(len(pids)):
        _wait_for(COMMITTED, state)
        time.sleep(chance.uniform(0, 0.08))
        place = _between(living, state) if turn % 2 else chance.choice(living)
        os.kill(pids[place], signal.SIGKILL)
        os.waitpid(pids[place], 0)
        living.remove(place)
        between += state[place] == BETWEEN
        state[place] = state[COMMITTED] = 0
    return between


def _wait_for(byte: int, state: mmap.mmap) -> None:
    patience = time.monotonic() + PATIENCE
    while not state[byte] and time.monotonic() < patience:
        time.sleep(0.0005)


def _between(living: list[int], state: mmap.mmap) -> int:
    """The next of them that has its number and has not committed; any, after a long wait."""
    patience = time.monotonic() + PATIENCE
    while time.monotonic() < patience:
        for place in living:
            if state[place] == BETWEEN:
                return place
        time.sleep(0.0005)
    return living[0]


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    import django
    from django.conf import settings

    settings.DATABASES["default"]["NAME"] = sys.argv[1]
    django.setup()
    # Before the fork, so that each writer need not import it again.
    import_module("tests.books.cast")
    shared = mmap.mmap(-1, WRITERS + 1)
    print(killed_between(started(shared, int(sys.argv[2])), shared, int(sys.argv[2])))
