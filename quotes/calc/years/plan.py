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
class CourseShare:
    """How many of a thousand quotes go this way, and how many days ago they were asked for."""

    of_thousand: int
    latest: int
    earliest: int
    most: int | None = None
    """So many at most, however many quotes there are."""


COURSES: dict[Kind, CourseShare] = {
    "paid": CourseShare(480, PAID_AFTER, DAYS),
    "unpaid": CourseShare(20, INVOICED_AFTER + 1, INVOICED_AFTER + 43),
    "in_hand": CourseShare(2, RECEIVED_AFTER + 1, DONE_AFTER, most=BENCH_HOLDS),
    "lapsed": CourseShare(295, 32, DAYS),
    "revised": CourseShare(20, 40, DAYS),
    "declined": CourseShare(165, 5, DAYS),
    "waiting": CourseShare(12, 1, 27),
    "asked": CourseShare(1, 2, 10),
    "draft": CourseShare(5, 0, 10),
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


def _of_kind(kind: Kind, course: CourseShare, quotes: int) -> Iterator[Thread]:
    """Spread evenly over their days; at least one of each kind, so that a small workshop has them all."""
    many = min(max(1, round(quotes * course.of_thousand / 1000)), course.most or quotes)
    span = course.earliest - course.latest
    for index in range(many):
        yield Thread(course.earliest - round(span * (index + 0.5) / many), kind, index)


def customers(quotes: int) -> int:
    """How many customers ask for so many quotes."""
    return max(12, quotes // 10)
