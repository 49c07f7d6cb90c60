"""The record of changes as a chain: each entry holds the hash of the one before it.

An entry hashes a digest of what it says, not the words themselves. Each value has its own salt and leaf,
so that one may be erased for good while its leaf, and with it the chain, still stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from quotes.calc.record.fault import RecordFault
from quotes.calc.record.kept_json import kept_fingerprint

START = "0" * 64
"""What stands before the first entry."""
Told = list[Any] | str
"""One value told of: before, after and its salt; or its leaf alone, once it is erased."""
Faults = tuple[RecordFault, ...]


@dataclass(frozen=True, slots=True)
class ChainEntry:
    """One entry as it is chained; every field but `hash` goes into the hash. `at` is ISO 8601, in UTC."""

    number: int
    at: str
    by_kind: str
    by_id: str
    action: str
    record_type: str
    record_id: str
    under_type: str
    under_id: str
    digest: str
    previous: str
    hash: str = ""

    def chained(self) -> ChainEntry:
        """The entry with the hash that belongs to it."""
        return replace(self, hash=self.own_hash())

    def own_hash(self) -> str:
        """SHA-256 over the names and values of all other fields."""
        fields = {name: getattr(self, name) for name in self.__slots__ if name != "hash"}
        return kept_fingerprint(fields)


@dataclass(frozen=True, slots=True)
class Head:
    """How many entries there are and the hash of the last, kept beside the chain."""

    count: int
    hash: str


def leaf(field: str, told: Told) -> str:
    """The digest of one value told of; that of an erased one is all that is left of it."""
    return told if isinstance(told, str) else kept_fingerprint([field, *told])


def digest_of(told: Mapping[str, Told]) -> str:
    """The digest of all that an entry says."""
    return kept_fingerprint({field: leaf(field, one) for field, one in told.items()})


def erased(told: Mapping[str, Told], fields: Iterable[str]) -> dict[str, Told]:
    """The same without the values of these fields, and of all that lies below them; the digest stays."""
    gone = tuple(fields)
    below = tuple(f"{field}." for field in gone)
    return {
        field: leaf(field, one) if field in gone or field.startswith(below) else one
        for field, one in told.items()
    }


def chain_faults(
    rows: Iterable[tuple[ChainEntry, Mapping[str, Told] | None]], head: Head | None
) -> Iterator[Faults]:
    """What is wrong with each entry, in the order of their numbers; last, what is wrong with the head.

    Beside each entry what it says, None where that is missing altogether.
    """
    before = Head(0, START)
    for entry, told in rows:
        yield (*_links(entry, before), *_words(entry, told))
        before = Head(entry.number, entry.hash)
    if head is None:
        # A record that was never begun has no head; one with entries has.
        head = Head(0, START)
    name = "Record of changes"
    faults = []
    if before.count != head.count:
        faults.append(RecordFault(name, "its last entry", f"number {head.count}", f"number {before.count}"))
    if before.hash != head.hash:
        faults.append(RecordFault(name, "hash of its last entry", head.hash, before.hash))
    yield tuple(faults)


def _links(entry: ChainEntry, before: Head) -> Iterator[RecordFault]:
    name = f"Change {entry.number}"
    if entry.number != before.count + 1:
        missing = f"entries {before.count + 1} to {entry.number - 1}"
        yield RecordFault("Record of changes", "entries without a gap", missing, "none")
    if entry.previous != before.hash:
        yield RecordFault(name, "hash of the entry before it", before.hash, entry.previous)
    if (again := entry.own_hash()) != entry.hash:
        yield RecordFault(name, "its own hash", again, entry.hash)


def _words(entry: ChainEntry, told: Mapping[str, Told] | None) -> Iterator[RecordFault]:
    found = "nothing" if told is None else digest_of(told)
    if found != entry.digest:
        yield RecordFault(f"Change {entry.number}", "digest of what it says", entry.digest, found)
