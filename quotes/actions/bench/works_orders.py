"""Machine work: sent out with its sizes and tag, taken back with what was measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal
from typing import Literal, cast
from uuid import UUID

from django.conf import settings
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone, translation

from catalogue.calc.engine import MachineWork
from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.bench.refused import NotInTheShop
from quotes.actions.numbers import next_number
from quotes.actions.saving import save_checked
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.bench.parts.taken_off import OF_WORK
from quotes.calc.bench.parts.target_sizes import CheckedSize, Target, outside
from quotes.calc.bench.parts.works_sheet import WorksSheet
from quotes.calc.bench.said import exact
from quotes.models import Job, Workshop, WorksOrder
from quotes.queries.bench.jobs import catalogue_of
from quotes.queries.bench.parts.works_orders import totals_in_words
from quotes.queries.people import name_of
from quotes.queries.sheets import workshop_party

SERIES = "M"


@dataclass(frozen=True, slots=True)
class SentOut:
    """What is sent out. Days as the outside shop promised them: even chance, and 9 in 10."""

    machine_work: str
    vendor: str
    tag: str
    quantity: Decimal
    sent_on: date
    expected_on: date
    slow_on: date
    component: str = ""
    targets: tuple[Target, ...] = ()
    goes_with: tuple[str, ...] = ()
    words: str = ""


@transaction.atomic
def send_out(*, job: Job, sent: SentOut, key: UUID, by: User, now: datetime) -> WorksOrder:
    """Write the works order and number it; the same key again gives the one that was written.

    ValidationError by field: work that the engine type does not have, no tag, no target size and no words,
    days out of order. NotInTheShop for an engine that is not here any more.
    """
    if made := WorksOrder.objects.filter(key=key).first():
        return made
    if job.left_at is not None:
        raise NotInTheShop(job.number)
    work = _work_of(job, sent.machine_work)
    _refuse(sent)
    sent = replace(sent, vendor=sent.vendor.strip() or work.vendor)
    number = next_number(kind=SERIES, year=timezone.localdate(now).year)
    sheet = _sheet(job, sent, number, work.name, work.unit)
    return save_checked(
        WorksOrder(
            key=key,
            number=number,
            job=job,
            machine_work=sent.machine_work,
            name=work.name,
            component=sent.component or next(iter(work.components), ""),
            vendor=sent.vendor,
            tag=sent.tag.strip(),
            quantity=sent.quantity,
            targets=[one.model_dump(mode="json") for one in sent.targets],
            goes_with=list(sent.goes_with),
            words=sent.words.strip(),
            expected_cost=work.cost * sent.quantity,
            sheet=sheet.model_dump(mode="json"),
            sheet_sha256=fingerprint(sheet),
            sent_on=sent.sent_on,
            expected_on=sent.expected_on,
            slow_on=sent.slow_on,
            at=now,
            by=by,
        )
    )


def _work_of(job: Job, code: str) -> MachineWork:
    work = catalogue_of(job).machine_work.get(code)
    if work is None:
        wrong = say("{machine_work} is no machine work of this engine.", machine_work=repr(code))
        raise ValidationError({"machine_work": wrong})
    return work


def _refuse(sent: SentOut) -> None:
    faults = {}
    if not sent.tag.strip():
        faults["tag"] = say(
            "Nothing is given: parts of two engines look alike, so each goes out under its tag."
        )
    if not sent.targets and not sent.words.strip():
        faults["words"] = say("Nothing is given: write the sizes, or in words what is to be done.")
    if not sent.sent_on <= sent.expected_on <= sent.slow_on:
        faults["expected_on"] = say(
            "Sent {sent}, expected {expected}, at the latest {latest}: each day must follow the one before.",
            sent=sent.sent_on,
            expected=sent.expected_on,
            latest=sent.slow_on,
        )
    if sent.quantity <= ZERO:
        faults["quantity"] = say("{quantity} is not above nought.", quantity=exact(sent.quantity))
    for target in sent.targets:
        if target.low > target.high:
            faults["targets"] = say(
                "{name}: {low} to {high} runs backwards.",
                name=target.name,
                low=exact(target.low),
                high=exact(target.high),
            )
    if faults:
        raise ValidationError(faults)


def _sheet(job: Job, sent: SentOut, number: str, work: str, unit: str) -> WorksSheet:
    workshop = Workshop.objects.get_or_default()
    with translation.override(settings.LANGUAGE_CODE):
        taken_off = totals_in_words(job.engine_id)
    return WorksSheet(
        number=number,
        workshop=workshop_party(workshop),
        vendor=sent.vendor,
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=settings.LANGUAGE_CODE,
        sent_on=sent.sent_on,
        expected_on=sent.expected_on,
        slow_on=sent.slow_on,
        job=job.number,
        tag=sent.tag.strip(),
        engine_name=catalogue_of(job).engine_type.name,
        work=work,
        quantity=sent.quantity,
        unit=unit,
        targets=sent.targets,
        goes_with=sent.goes_with,
        words=sent.words.strip(),
        taken_off=taken_off,
    )


@dataclass(frozen=True, slots=True)
class CameBack:
    """What came back: under which tag, what was measured on it, what was taken off (mm), what it cost."""

    on: date
    tag: str
    checked: tuple[CheckedSize, ...]
    sound: bool
    taken_off_mm: Decimal | None = None
    cost: Decimal | None = None
    note: str = ""


@transaction.atomic
def take_back(*, order: WorksOrder, back: CameBack, by: User, now: datetime) -> WorksOrder:
    """Write down the incoming check, once.

    ValidationError by field: another tag (parts of two engines were swapped), sound with a size outside what
    was asked, a day before it was sent or to come, an unsound one without a word on what is wrong.
    """
    row = WorksOrder.objects.select_for_update(of=("self",)).get(pk=order.pk)
    if row.back_on is not None:
        return row
    _refuse_back(row, back, timezone.localdate(now))
    kind = OF_WORK.get(row.machine_work, "")
    row.back_on, row.sound, row.back_note, row.back_by = back.on, back.sound, back.note.strip(), name_of(by)
    row.checked = [one.model_dump(mode="json") for one in back.checked]
    row.taken_off, row.taken_off_mm = kind, back.taken_off_mm if kind else None
    row.cost = row.expected_cost if back.cost is None else back.cost
    row.full_clean()
    row.save(update_fields=[*BACK])
    return row


BACK: Sequence[str] = (
    "back_on",
    "sound",
    "back_note",
    "back_by",
    "checked",
    "taken_off",
    "taken_off_mm",
    "cost",
)


def _refuse_back(row: WorksOrder, back: CameBack, today: date) -> None:
    faults = {}
    if back.tag.strip().casefold() != row.tag.casefold():
        faults["tag"] = say(
            "{given} is not the tag it went out under, {tag}: is it another's part?",
            given=repr(back.tag.strip()),
            tag=repr(row.tag),
        )
    if not row.sent_on <= back.on <= today:
        faults["on"] = say(
            "{on} is not between {sent}, when it was sent, and today.", on=back.on, sent=row.sent_on
        )
    wrong = outside([Target.model_validate(one) for one in row.targets], back.checked)
    if back.sound and wrong:
        faults["sound"] = say("It is not as it was asked for: {wrong}.", wrong="; ".join(wrong))
    if not back.sound and not back.note.strip():
        faults["note"] = say("Nothing is given: say what is wrong with it.")
    if back.taken_off_mm is not None and back.taken_off_mm < ZERO:
        faults["taken_off_mm"] = say("{given} is below nought.", given=exact(back.taken_off_mm))
    if faults:
        raise ValidationError(faults)
