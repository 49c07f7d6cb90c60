"""Writes entries of the record of changes: last in the transaction, in one go, chained one to another."""

from __future__ import annotations

import json
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime

from django.utils import timezone

from quotes.actions.audit.who import Who, acting
from quotes.calc.record.chain import START, ChainEntry, Head, Told, digest_of
from quotes.calc.record.leaf_changes import Pair
from quotes.database.before_commit import Waiting
from quotes.models import AuditAction, AuditEntry, AuditHead, AuditWords

SALT_BYTES = 12
AT_ONCE = 500
"""Rows of one statement."""


@dataclass(frozen=True, slots=True)
class ToldEntry(Waiting):
    """One entry, before it is chained. Who made the change is known as it is made."""

    action: AuditAction
    record_type: str
    record_id: str
    under: tuple[str, str]
    called: str
    changes: Mapping[str, Pair]
    by: Who = field(default_factory=acting)

    @classmethod
    def write(cls, waiting: Sequence[ToldEntry]) -> None:
        """Nobody else writes an entry from here to the end of the transaction, which is a moment."""
        now, head = timezone.now().astimezone(UTC), _locked_head()
        entries, words = [], []
        for one in _without_undone(waiting):
            told = one.told()
            entry = one.entry(head, now, told).chained()
            head = Head(entry.number, entry.hash)
            entries.append(AuditEntry(**{name: getattr(entry, name) for name in COLUMNS}, at=now))
            words.append(AuditWords(entry_id=entry.number, told=canonical(told)))
        AuditEntry.objects.bulk_create(entries, batch_size=AT_ONCE)
        AuditWords.objects.bulk_create(words, batch_size=AT_ONCE)

    def told(self) -> dict[str, Told]:
        """What is said, each value with a salt of its own: without it an erased one could be guessed."""
        named = {AuditWords.RECORD: (None, self.called), AuditWords.BY: (None, self.by.name)}
        return {
            name: [was, became, secrets.token_urlsafe(SALT_BYTES)]
            for name, (was, became) in {**named, **self.changes}.items()
        }

    def entry(self, head: Head, now: datetime, told: Mapping[str, Told]) -> ChainEntry:
        """The entry as it follows the head."""
        return ChainEntry(
            number=head.count + 1,
            at=now.isoformat(),
            by_kind=self.by.kind.value,
            by_id=self.by.id,
            action=self.action.value,
            record_type=self.record_type,
            record_id=self.record_id,
            under_type=self.under[0],
            under_id=self.under[1],
            digest=digest_of(told),
            previous=head.hash,
        )


COLUMNS = tuple(name for name in ChainEntry.__slots__ if name != "at")


def canonical(told: Mapping[str, Told]) -> str:
    """JSON as it is kept: a value comes back from it as it was digested."""
    return json.dumps(told, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def _locked_head() -> Head:
    """The head, and nobody else's until the transaction is over. The first entry ever makes it."""
    rows = AuditHead.objects.select_for_update()
    row = rows.first()
    if row is None:
        AuditHead.objects.bulk_create([AuditHead(id=AuditHead.ONLY_ID, hash=START)], ignore_conflicts=True)
        row = rows.get()
    return Head(row.count, row.hash)


def _without_undone(waiting: Sequence[ToldEntry]) -> list[ToldEntry]:
    """Without rows that a list lost and got again as they were, as when all of it is written anew."""
    lost: dict[str, list[int]] = {}
    left: list[ToldEntry | None] = list(waiting)
    for place, one in enumerate(waiting):
        if one.action == AuditAction.DELETED:
            lost.setdefault(_fingerprint(one, 0), []).append(place)
        elif one.action == AuditAction.ADDED and (places := lost.get(_fingerprint(one, 1))):
            left[places.pop(0)] = left[place] = None
    return [one for one in left if one is not None]


def _fingerprint(one: ToldEntry, side: int) -> str:
    values = {name: pair[side] for name, pair in one.changes.items()}
    return canonical({one.record_type: [one.under, values]})
