"""Works that tests have done in the background: each writes down that it ran in a counter."""

from __future__ import annotations

import time

from django.db import connection, transaction
from django.db.models import F

from quotes.actions.background_hand import Hand
from quotes.actions.refused import Refused
from quotes.database.before_commit import write_waiting
from quotes.models import Counter, Workshop

KIND = "work-of-a-test"


def ran() -> int:
    """How often what a work keeps was kept."""
    found = Counter.objects.filter(kind=KIND, year=0).first()
    return found.value if found else 0


@transaction.atomic
def count() -> None:
    counter, _ = Counter.objects.select_for_update().get_or_create(kind=KIND, year=0)
    counter.value += 1
    counter.save()


def counts(hand: Hand, /, *, rows: int = 3) -> None:
    hand.at(0, rows, "Reading")
    with hand.keep():
        count()
        hand.at(rows)


def refuses(hand: Hand, /) -> None:
    with hand.keep():
        count()
        raise Refused("Line 3 has no price.")


def breaks(hand: Hand, /) -> None:
    with hand.keep():
        count()
        raise ValueError("not a figure")


def names_the_workshop(hand: Hand, /) -> None:
    with hand.keep():
        shop = Workshop.objects.get_or_default()
        shop.name = "Venn Engines"
        shop.save()
        write_waiting(connection)


def takes_a_while(hand: Hand, /, *, number: int, seconds: float) -> None:
    """Half of it before it writes, half of it within its transaction; each has a counter of its own."""
    time.sleep(seconds / 2)
    with hand.keep():
        counter, _ = Counter.objects.select_for_update().get_or_create(kind=KIND, year=number)
        Counter.objects.filter(pk=counter.pk).update(value=F("value") + 1)
        time.sleep(seconds / 2)
