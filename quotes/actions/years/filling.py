"""Years of trading in an empty workshop: customers, engines, quotes, builds, invoices, payments, journal.

Quotes of each kind are written by the actions that people use, taken as patterns and taken back; then they
are copied, thousands in one transaction. The record of changes has one entry for the whole.
"""

from __future__ import annotations

import hashlib
import json
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.contrib.auth.models import User
from django.db import connection, transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.audit.writing import ToldEntry
from quotes.actions.refused import Refused
from quotes.actions.years.copies import Copy
from quotes.actions.years.rows import Rows
from quotes.actions.years.taking import CopiedQuote, Patterns, number_texts, owner_texts, patterns
from quotes.calc.record.series import number_in
from quotes.calc.years.mixed import one_of
from quotes.calc.years.names import Person, engine_number, person
from quotes.calc.years.plan import DAYS, Thread, customers, threads
from quotes.database.before_commit import wait
from quotes.models import AuditAction, Counter, Customer, Engine, StoredFile, Workshop
from quotes.queries.sample import is_empty

AT_ONCE = 2_000
"""Quotes in one transaction."""
MARK = "invented-years.json"
"""Says in the workshop itself that nothing in it was ever traded."""


class NotForYears(Refused):
    """The workshop is somebody's: invented years are not mixed with it."""


@dataclass(frozen=True, slots=True)
class Owner:
    """A customer and an engine that quotes are made out for."""

    customer: int
    engine: int
    person: Person
    number: str


Progress = Callable[[int, int], None]
Owners = dict[str, list[Owner]]


def refuse_a_workshop_in_use() -> None:
    """NotForYears unless the workshop is empty, and its settings are nobody's or those of a demo."""
    workshop = Workshop.objects.get_or_default()
    if not is_empty() or (workshop.version and not workshop.demo_style):
        raise NotForYears(
            say(
                "This database holds a workshop already, {workshop}. "
                "Years of invented trading go into an empty database only.",
                workshop=workshop,
            )
        )


def fill(*, quotes: int, seed: int, by: User, now: datetime, said: Progress = lambda done, of: None) -> None:
    """So many quotes with all that comes of them, up to that day. NotForYears; `said` hears how far it is.

    The same size and seed on the same day give the same rows.
    """
    refuse_a_workshop_in_use()
    _mark(quotes, seed, now)
    at = _noon(now) + timedelta(days=1)
    taken = patterns(by, at)
    rows = Rows()
    owners = _owners(rows, taken, quotes, seed)
    plan = threads(quotes, seed)
    for start in range(0, len(plan), AT_ONCE):
        with transaction.atomic():
            _copy(rows, taken, owners, plan[start : start + AT_ONCE], seed, timezone.localdate(at))
        said(min(start + AT_ONCE, len(plan)), len(plan))
    rows.finish()


def _noon(now: datetime) -> datetime:
    return timezone.localtime(now).replace(hour=12, minute=0, second=0, microsecond=0)


@transaction.atomic
def _mark(quotes: int, seed: int, now: datetime) -> None:
    """Before anything else, so that what a stopped run leaves is known for what it is."""
    told = json.dumps({"quotes": quotes, "seed": seed}).encode()
    StoredFile.objects.bulk_create(
        [
            StoredFile(
                name=MARK,
                content_type="application/json",
                sha256=hashlib.sha256(told).hexdigest(),
                held=told,
                made_at=now,
            )
        ]
    )
    why = f"{quotes} invented quotes with all that came of them"
    label = Workshop._meta.label_lower
    wait(ToldEntry(AuditAction.LOADED, label, "1", ("", ""), why, {"quotes": (None, quotes)}), connection)


@transaction.atomic
def _owners(rows: Rows, taken: Patterns, quotes: int, seed: int) -> Owners:
    """Customers with an engine each, by engine type; they came over all the years."""
    owners: Owners = defaultdict(list)
    many = customers(quotes)
    for index in range(many):
        code = taken.types[index % len(taken.types)]
        one = Owner(
            rows.key(Customer, 0), rows.key(Engine, 0), person(seed, index), engine_number(seed, index)
        )
        texts = owner_texts(one.person, one.number)
        taken.owners[code].copied(rows, Copy(texts, -1 - DAYS + DAYS * index // many, {}))
        owners[code].append(one)
    rows.write()
    return owners


def _copy(
    rows: Rows, taken: Patterns, owners: Owners, some: Sequence[Thread], seed: int, asked_on: date
) -> None:
    counters = {(row.kind, row.year): row.value for row in Counter.objects.select_for_update()}
    for thread in some:
        code = one_of(taken.types, seed, thread.days_ago, thread.index, 8)
        owner = one_of(owners[code], seed, thread.days_ago, thread.index, 9)
        found = taken.quotes[code, thread.kind]
        days = -1 - thread.days_ago
        texts = owner_texts(owner.person, owner.number)
        texts |= _numbers(found, asked_on + timedelta(days=days), counters)
        found.pattern.copied(rows, Copy(texts, days, {Customer: owner.customer, Engine: owner.engine}))
    rows.write()
    for (kind, year), value in counters.items():
        Counter.objects.update_or_create(kind=kind, year=year, defaults={"value": value})


def _numbers(taken: CopiedQuote, asked_on: date, counters: dict[tuple[str, int], int]) -> dict[str, str]:
    """A number of its series for each that the pattern has, by the day on which it is given out."""
    texts: dict[str, str] = {}
    for one in taken.numbers:
        year = (asked_on + timedelta(days=one.day)).year if one.yearly else 0
        counters[one.letter, year] = counters.get((one.letter, year), 0) + 1
        texts |= number_texts(one.marker, number_in((one.letter, year), counters[one.letter, year]))
    return texts
