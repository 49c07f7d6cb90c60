"""Eight people quoting at once through gunicorn, beside one of them alone on the same server."""

from __future__ import annotations

import os
import random
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from quotes.management.commands.load_demo import PASSWORD
from tests.bench_report.figure import Extra, Figure
from tests.faults.acts import Act, Person, draft_changed, new_quote, quote_issued
from tests.faults.browser import Refused, Unanswered
from tests.load.measured import Measured, MeasuredBrowser
from tests.load.work import asked_on_the_telephone, look

PEOPLE = 8
SECONDS, ALONE_S = 20.0, 8.0
PAUSE_S = (1.0, 3.0)
"""What is typed and said between two presses."""

ACTS: tuple[tuple[int, Act], ...] = (
    (4, asked_on_the_telephone),
    (3, new_quote),
    (3, draft_changed),
    (1, quote_issued),
    (2, look("/quotes/")),
)
"""What each does, and how often."""


@dataclass(slots=True)
class Desk:
    """What the eight met."""

    p50: float = 0.0
    p95: float = 0.0
    answers: int = 0
    wrong: list[str] = field(default_factory=list)


def prepare(quotes: int) -> Desk:
    return Desk()


def ours(desk: Desk) -> float:
    """The middle one of the answers' times."""
    with _served() as address:
        measured, desk.wrong = _quoting(address, PEOPLE, SECONDS)
    desk.p50, desk.p95 = measured.part("all", 0.5), measured.part("all", 0.95)
    desk.answers = len(measured.every)
    desk.wrong += [said for errors in measured.errors.values() for said in errors]
    return desk.p50


def bare(desk: Desk) -> float:
    with _served() as address:
        measured, _ = _quoting(address, 1, ALONE_S)
    return measured.part("all", 0.5)


def more(desk: Desk) -> tuple[Extra, ...]:
    return (
        Extra("p95", desk.p95, "s"),
        Extra("answers", desk.answers, ""),
        Extra("errors", len(desk.wrong), "", 0),
    )


@contextmanager
def _served() -> Iterator[str]:
    """The site on the database at hand, as it is served."""
    from django.db import connection

    from tests.bench_report.databases import leave
    from tests.faults.server import Server

    held, before = connection.settings_dict, os.environ.get("DATABASE_URL")
    leave()
    if connection.vendor == "sqlite":
        os.environ["DATABASE_URL"] = f"sqlite:///{held['NAME']}"
    else:
        at = f"{held['USER']}:{held['PASSWORD']}@{held['HOST']}:{held['PORT']}"
        os.environ["DATABASE_URL"] = f"postgres://{at}/{held['NAME']}"
    server = Server()
    try:
        yield server.address
    finally:
        server.kill_all()
        os.environ.pop("DATABASE_URL")
        if before:
            os.environ["DATABASE_URL"] = before


def _quoting(address: str, people: int, seconds: float) -> tuple[Measured, list[str]]:
    measured, wrong, stop = Measured(), list[str](), threading.Event()

    def work(place: int) -> None:
        one = Person(f"desk{place}", MeasuredBrowser(address, measured), random.Random(place))
        weights, acts = zip(*ACTS, strict=True)
        stop.wait(place * 0.3)
        try:
            one.browser.send(one.browser.form("/sign-in/", username="desk", password=PASSWORD))
            while not stop.wait(one.chance.uniform(*PAUSE_S)):
                one.chance.choices(acts, weights)[0](one)
        except (Refused, Unanswered) as said:
            wrong.append(f"{one.name}: {said}")

    threads = [threading.Thread(target=work, args=(place,)) for place in range(people)]
    for thread in threads:
        thread.start()
    time.sleep(seconds)
    stop.set()
    for thread in threads:
        thread.join()
    return measured, wrong


EIGHT_PEOPLE = Figure(
    name="eight",
    what="eight people quoting at once, an answer in the middle",
    bare_is="one of them alone on the same server",
    unit="quotes",
    sizes=(1_000,),
    prepare=prepare,
    ours=ours,
    bare=bare,
    more=more,
    needs="years",
    runs=1,
    tells_itself=True,
)
