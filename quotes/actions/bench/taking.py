"""Taking in what a tablet kept while it had no connection: entry by entry, each once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError

from catalogue.calc.said import say
from quotes.actions.bench.findings import FindingTold, keep_finding, withdraw_finding
from quotes.actions.bench.readings import Read, keep_reading
from quotes.actions.refused import Refused
from quotes.models import FindingSeen, Instrument, Job
from quotes.queries.bench.teardown.page import read_words


@dataclass(frozen=True, slots=True)
class SentEntry:
    """An entry as it was sent: of which kind, under which key, when it was made, and its fields."""

    kind: str
    key: UUID
    at: datetime
    fields: Mapping[str, Any]


@dataclass(slots=True)
class BatchTaken:
    """What became of a batch: keys that are kept, with their words; keys refused, with field and words."""

    kept: list[dict[str, str]] = field(default_factory=list)
    refused: list[dict[str, str]] = field(default_factory=list)


def take_entries(*, job: Job, told: Sequence[SentEntry], by: User) -> BatchTaken:
    """Keep each entry in a transaction of its own: one that is refused holds no other up."""
    taken = BatchTaken()
    for entry in told:
        try:
            taken.kept.append({"key": str(entry.key), **_take(job, entry, by)})
        except ValidationError as wrong:
            taken.refused.append({"key": str(entry.key), **_words(wrong)})
        except Refused as wrong:
            taken.refused.append({"key": str(entry.key), "field": "", "words": str(wrong)})
    return taken


def _take(job: Job, entry: SentEntry, by: User) -> dict[str, str]:
    fields = dict(entry.fields)
    if entry.kind == "reading":
        instrument = Instrument.objects.filter(pk=fields.pop("instrument", None) or 0).first()
        row = keep_reading(
            job=job, read=Read(**fields), key=entry.key, by=by, now=entry.at, instrument=instrument
        )
        return {"verdict": row.verdict, "words": read_words(row)}
    if entry.kind == "finding":
        keep_finding(job=job, seen=FindingTold(**fields), key=entry.key, by=by, now=entry.at)
        return {"words": "kept"}
    finding = FindingSeen.objects.filter(job=job, key=fields["finding"]).first()
    if finding is None:
        raise ValidationError({"finding": say("{number} has no such finding.", number=job.number)})
    withdraw_finding(finding=finding, because=fields["because"], by=by, now=entry.at)
    return {"words": say("taken back")}


def _words(wrong: ValidationError) -> dict[str, str]:
    if hasattr(wrong, "error_dict"):
        name, messages = next(iter(wrong.message_dict.items()))
        return {"field": "" if name == "__all__" else name, "words": messages[0]}
    return {"field": "", "words": wrong.messages[0]}
