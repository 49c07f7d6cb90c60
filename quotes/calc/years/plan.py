"""What becomes of the quotes of ten years, and on which day each was asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from quotes.calc.years.mixed import mixed

Kind = Literal[
    "paid", "unpaid", "in_hand", "lapsed", "revised", "declined", "waiting", "asked", "draft"
]  # fmt: skip
DAYS = 3650
FULL_QUOTES = 100_000
FULL_PARTS = 100_000
ACCEPTED_AFTER, RECEIVED_AFTER, ORDERED_AFTER, PARTS_AFTER = 4, 10, 10, 24
DONE_AFTER, INVOICED_AFTER, PAID_AFTER = 31, 32, 45
"""Days from the call: the same for every build, so that numbers go in the order of the days."""
BENCH_HOLDS = 40
"""Builds in hand at once: what has been traded grows with the years, what a bench can hold does not."""


@dataclass(frozen=True, slots=True)
class Course:
    """How many of a thousand quotes go this way, and how many days ago they were asked for."""

    of_thousand: int
    latest: int
    earliest: int
    most: int | None = None
    """So many at most, however many quotes there are."""


COURSES: dict[Kind, Course] = {
    "paid": Course(480, PAID_AFTER, DAYS),
    "unpaid": Course(20, INVOICED_AFTER + 1, INVOICED_AFTER + 43),
    "in_hand": Course(2, RECEIVED_AFTER + 1, DONE_AFTER, most=BENCH_HOLDS),
    "lapsed": Course(295, 32, DAYS),
    "revised": Course(20, 40, DAYS),
    "declined": Course(165, 5, DAYS),
    "waiting": Course(12, 1, 27),
    "asked": Course(1, 2, 10),
    "draft": Course(5, 0, 10),
}
"""No source: a workshop that hears a yes to every second quote, and keeps a month of work in hand."""


@dataclass(frozen=True, slots=True)
class Thread:
    """One quote with all that comes of it."""

    days_ago: int
    kind: Kind
    index: int


def threads(quotes: int, seed: int) -> list[Thread]:
    """So many quotes, the oldest first; of those asked for on one day in an order of no meaning."""
    found = [each for kind, course in COURSES.items() for each in _of_kind(kind, course, quotes)]
    places = list(COURSES)
    return sorted(
        found, key=lambda one: (-one.days_ago, mixed(seed, one.index, places.index(one.kind)), one.index)
    )


def _of_kind(kind: Kind, course: Course, quotes: int) -> Iterator[Thread]:
    """Spread evenly over their days; at least one of each kind, so that a small workshop has them all."""
    many = min(max(1, round(quotes * course.of_thousand / 1000)), course.most or quotes)
    span = course.earliest - course.latest
    for index in range(many):
        yield Thread(course.earliest - round(span * (index + 0.5) / many), kind, index)


def customers(quotes: int) -> int:
    """How many customers ask for so many quotes."""
    return max(12, quotes // 10)
