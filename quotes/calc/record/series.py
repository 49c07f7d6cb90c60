"""Series of numbers: from 1 to where the counter stands, each given out once."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from quotes.calc.record.fault import RecordFault

NUMBER = re.compile(r"(?P<kind>[A-Z])-(?:(?P<year>\d{4})-(?P<yearly>\d{4,})|(?P<through>\d{5,}))")
SeriesKey = tuple[str, int]
"""Letter and year; year 0 of one that goes through the years."""


@dataclass(slots=True)
class SeriesNumbers:
    """The numbers of one series that documents bear."""

    counts: set[int] = field(default_factory=set)
    doubles: list[int] = field(default_factory=list)

    def add(self, count: int) -> None:
        if count in self.counts:
            self.doubles.append(count)
        self.counts.add(count)


def series_of(number: str, kind: str) -> tuple[SeriesKey, int] | None:
    """Which series a number belongs to and which it is of it; None for what is no number of that letter."""
    read = NUMBER.fullmatch(number)
    if read is None or read["kind"] != kind:
        return None
    return (kind, int(read["year"] or 0)), int(read["yearly"] or read["through"])


def number_in(series: SeriesKey, count: int) -> str:
    """The number as it is written on a document."""
    kind, year = series
    return f"{kind}-{year}-{count:04}" if year else f"{kind}-{count:05}"


def sorted_into_series(
    numbers: Iterable[tuple[str, str]],
) -> tuple[dict[SeriesKey, SeriesNumbers], list[RecordFault]]:
    """Pairs of letter and number, by series; and a fault for each that is no number of its letter."""
    given: dict[SeriesKey, SeriesNumbers] = defaultdict(SeriesNumbers)
    strange: list[RecordFault] = []
    for kind, number in numbers:
        read = series_of(number, kind)
        if read is None:
            strange.append(RecordFault(number, "number", f"one of the series {kind}", number))
        else:
            given[read[0]].add(read[1])
    return dict(given), strange


def series_faults(
    given: Mapping[SeriesKey, SeriesNumbers], counters: Mapping[SeriesKey, int]
) -> Iterator[tuple[RecordFault, ...]]:
    """For each series, in order, what is wrong with it: gaps, doubles, a counter that stands elsewhere."""
    for series in sorted(given.keys() | counters.keys()):
        yield tuple(_faults(series, given.get(series, SeriesNumbers()), counters.get(series, 0)))


def _faults(series: SeriesKey, given: SeriesNumbers, counter: int) -> Iterator[RecordFault]:
    kind, year = series
    name = f"Series {kind} {year or 'through the years'}"
    highest = max(given.counts, default=0)
    for count in given.doubles:
        number = number_in(series, count)
        yield RecordFault(name, f"number {number}", "one document", "another one that bears it")
    if counter < highest:
        yield RecordFault(name, "its counter", f"{highest} or more", counter)
    for first, last in _gaps(given.counts, max(counter, highest)):
        missing = number_in(series, first) + (f" to {number_in(series, last)}" if last > first else "")
        yield RecordFault(name, "numbers without a gap", f"a document for {missing}", "none")


def _gaps(counts: set[int], last: int) -> Iterator[tuple[int, int]]:
    """First and last of each run of numbers that nothing bears."""
    first = 0
    for count in range(1, last + 2):
        missing = count <= last and count not in counts
        if missing and not first:
            first = count
        if not missing and first:
            yield first, count - 1
            first = 0
