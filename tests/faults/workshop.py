"""A demo workshop of the harness's own, its people at their browsers, and a look through its record."""

from __future__ import annotations

import random
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from io import StringIO

from django.core.management import call_command
from django.db import connection

from quotes.management.commands.load_demo import PASSWORD
from quotes.queries.record.checks import CHECKS
from quotes.queries.record.moment import one_moment
from tests.faults.acts import BENCH, BOOKS, DESK, OWNER, Duties, Person, new_customer, new_engine
from tests.faults.browser import Browser, Unanswered

DUTIES: tuple[tuple[str, str, Duties], ...] = (
    ("desk", "desk", DESK),
    ("front", "desk", DESK),
    ("books", "books", BOOKS),
    ("bench", "builder", BENCH),
    ("prices", "owner", OWNER),
)
"""Who sits there, under whose sign-in, and what he does."""
ENGINES_BEFOREHAND = 3


def set_up() -> None:
    """The shop, its people, prices and catalogue as `make demo` has them, without the year."""
    quiet = StringIO()
    call_command("migrate", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    call_command("load_demo", style="sales-tax", year=False, stdout=quiet)


def people(site: str, seed: int) -> list[Person]:
    """Everybody signed in, each with something to go on with."""
    there = [Person(name, Browser(site), random.Random(f"{seed} {name}")) for name, _, _ in DUTIES]
    for one, (_, sign_in, _) in zip(there, DUTIES, strict=True):
        form = one.browser.form("/sign-in/", username=sign_in, password=PASSWORD)
        one.browser.send(form)
    desk = there[0]
    for _ in range(ENGINES_BEFOREHAND):
        new_customer(desk)
        new_engine(desk)
    for one in there[1:]:
        one.customers, one.engines = list(desk.customers), list(desk.engines)
    return there


class Faulty(Exception):
    """Somebody met what no kill explains."""


@contextmanager
def at_work(there: Sequence[Person]) -> Iterator[None]:
    """Everybody sends one form after another until this ends."""
    stop, faults = threading.Event(), []

    def work(one: Person, duties: Duties) -> None:
        acts, often = zip(*duties, strict=True)
        while not stop.is_set():
            try:
                one.chance.choices(acts, often)[0](one)
            except Unanswered:
                stop.wait(0.05)
            except Exception as fault:
                faults.append(fault)
                return

    threads = [
        threading.Thread(target=work, args=(one, duties))
        for one, (_, _, duties) in zip(there, DUTIES, strict=True)
    ]
    for thread in threads:
        thread.start()
    try:
        yield
    finally:
        stop.set()
        for thread in threads:
            thread.join()
    if faults:
        raise Faulty(repr(faults[0])) from faults[0]


def record_faults() -> list[str]:
    """What `manage.py verify` would print."""
    try:
        with one_moment():
            return [str(fault) for check in CHECKS for found in check.look() for fault in found]
    finally:
        connection.close()
