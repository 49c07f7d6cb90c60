"""The hand-over: note and card numbered and frozen, ages begun anew, and the engine out of the workshop."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import Literal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say, to_say
from quotes.actions.accepting import mark_done
from quotes.actions.bench.jobs import locked_job, move
from quotes.actions.bench.new_lives import begin_new_lives
from quotes.actions.bench.refused import NotInTheShop
from quotes.actions.bench.release_refused import (
    AlreadyReleased,
    NoRecord,
    NotLookedOver,
    NotPaid,
    OnlyTheOwner,
    StillAsked,
)
from quotes.actions.files import PDF
from quotes.actions.numbers import next_number
from quotes.actions.saving import save_checked
from quotes.actions.storing import store_file
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.bench.leaving.release_sheet import ReleaseSheet
from quotes.models import AssemblyRecord, ExtraWork, FinalCheck, Job, Release, Step, StoredFile
from quotes.queries.bench.jobs import build_of
from quotes.queries.bench.leaving.release_sheet import release_sheet
from quotes.queries.bench.leaving.way_out import Money, last_check, money_of_job
from quotes.queries.books.day import money_of
from quotes.queries.people import name_of
from quotes.queries.rights import may

SERIES = "L"
OLD_PARTS: dict[str, str] = {
    "returned": to_say("given back with the engine"),
    "scrapped": to_say("scrapped here"),
    "cores": to_say("given back but for those that went to their suppliers as cores"),
    "kept": to_say("kept here for the customer to fetch"),
}


@dataclass(frozen=True, slots=True)
class HandedOver:
    """To whom, what he showed, the seal; `unpaid_consent` is the owner's word where it is not paid."""

    released_to: str
    shown: str
    old_parts: str
    seal: str = ""
    unpaid_consent: str = ""


@transaction.atomic
def release(*, job: Job, given: HandedOver, by: User, now: datetime) -> Release:
    """Hand the engine over, once.

    NoRecord, NotLookedOver, StillAsked, NotPaid, OnlyTheOwner, AgreedSince, AgesUnclear, AlreadyReleased,
    NotInTheShop, NotMoved, or ValidationError by field. Whatever is refused leaves everything as it was.
    """
    row = _standing(job)
    record, check = _record_of(row), _check_of(row)
    _refuse_unsaid(given)
    _refuse_still_asked(row)
    on = timezone.localdate(now)
    money = money_of_job(row, on)
    _refuse_unpaid(money, given, by, now)
    begin_new_lives(job=row, check=check, by=by, now=now)
    number = next_number(kind=SERIES, year=on.year)
    sheet = release_sheet(row, check, record, money, on, number=number, **_said(given, money, by))
    kept = _keep(row, sheet, by, now)
    note = say("{number} to {name}", number=kept.number, name=kept.released_to)
    move(job=job, step=Step.RELEASED, by=by, now=now, note=note[:500])
    if build := build_of(row):
        mark_done(acceptance=build, by=by, now=now)
    return kept


def _said(given: HandedOver, money: Money, by: User) -> dict[str, str]:
    """What was said at the hand-over, as it is printed; no consent where nothing is open."""
    unpaid = bool(money.open_sum)
    return {
        "released_to": given.released_to.strip(),
        "shown": given.shown.strip(),
        "seal": given.seal.strip(),
        "released_by": name_of(by),
        "unpaid_consent": given.unpaid_consent.strip() if unpaid else "",
        "consent_by": name_of(by) if unpaid else "",
        "old_parts": OLD_PARTS[given.old_parts],
    }


def _standing(job: Job) -> Job:
    """The job locked, with all that is asked of it."""
    locked_job(job)
    row = Job.objects.joined().get(pk=job.pk)
    if made := Release.objects.filter(job=row).first():
        raise AlreadyReleased(made.number, made.released_to)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    return row


def _record_of(row: Job) -> AssemblyRecord:
    record = AssemblyRecord.objects.filter(job=row).select_related("closed_by").first()
    if record is None:
        raise NoRecord(row.number)
    return record


def _check_of(row: Job) -> FinalCheck:
    check = last_check(row)
    if check is None:
        raise NotLookedOver(row.number)
    return check


def _refuse_unsaid(given: HandedOver) -> None:
    faults = {}
    if not given.released_to.strip():
        faults["released_to"] = say("Nothing is given: write the full name of who takes the engine.")
    if not given.shown.strip():
        faults["shown"] = say("Nothing is given: say what he showed, or that he is known here.")
    if given.old_parts not in OLD_PARTS:
        faults["old_parts"] = say(
            "“{given}” is none of: {allowed}.",
            given=given.old_parts,
            allowed=", ".join(map(say, OLD_PARTS.values())),
        )
    if faults:
        raise ValidationError(faults)


def _refuse_still_asked(row: Job) -> None:
    waiting = ExtraWork.objects.waiting().filter(build__quote=row.quote_id, rider_safety=True)
    if asked := waiting.select_related("build__quote").first():
        raise StillAsked(asked.number, asked.words)


def _refuse_unpaid(money: Money, given: HandedOver, by: User, now: datetime) -> None:
    if not money.open_sum:
        return
    said = f"{money_of(timezone.localdate(now)).currency} {money.open_sum:,f}"
    if not given.unpaid_consent.strip():
        raise NotPaid(said)
    if not may(by, "hand over unpaid"):
        raise OnlyTheOwner(said)


def _keep(row: Job, sheet: ReleaseSheet, by: User, now: datetime) -> Release:
    return save_checked(
        Release(
            job=row,
            number=sheet.number,
            seal=sheet.seal,
            released_to=sheet.released_to,
            shown=sheet.shown,
            checks=[[one.words, one.in_words] for one in sheet.checks],
            unpaid_consent=sheet.unpaid_consent,
            sheet=sheet.model_dump(mode="json"),
            sheet_sha256=fingerprint(sheet),
            at=now,
            by=by,
        )
    )


def note_file(*, release: Release) -> StoredFile:
    """The stored release note, drawn now where that has not been done yet."""
    return _kept(release, "pdf", f"{release.number}-release-note.pdf")


def card_file(*, release: Release) -> StoredFile:
    """The stored running-in card, drawn now where that has not been done yet."""
    return _kept(release, "card", f"{release.number}-running-in.pdf")


def _kept(release: Release, which: Literal["pdf", "card"], name: str) -> StoredFile:
    kept: StoredFile | None = getattr(release, which)
    return kept or _store(release, which, name)


@transaction.atomic
def _store(release: Release, which: Literal["pdf", "card"], name: str) -> StoredFile:
    """Who comes second gets what the first has stored."""
    from quotes.documents.bench.release import card_pdf, note_pdf  # takes a second to import

    row = Release.objects.select_for_update(of=("self",)).select_related(which).get(pk=release.pk)
    kept: StoredFile | None = getattr(row, which)
    if kept is None:
        draw = partial(note_pdf if which == "pdf" else card_pdf, ReleaseSheet.model_validate(row.sheet))
        kept = store_file(name=name, content_type=PDF, content=draw(), now=timezone.now())
        setattr(row, which, kept)
        row.save(update_fields=[which])
    setattr(release, which, kept)
    return kept
