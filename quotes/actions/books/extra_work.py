"""Extra work found after the yes: offered with its price, answered once, never changed afterwards."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from quotes.actions.books.checks import refuse_line_faults
from quotes.actions.books.refused import AlreadyAnswered
from quotes.actions.saving import save_checked
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.sums import document_sums, invoice_lines
from quotes.models import Acceptance, ExtraWork, ExtraWorkState
from quotes.queries.books.day import money_of
from quotes.queries.people import name_of

SPOKEN = re.compile(r"telephone|phone|call|rang|spoke", re.IGNORECASE)
"""Words that say an answer was given by telephone."""
A_NUMBER = re.compile(r"\d[\d ()/.-]{3,}\d")


@transaction.atomic
def offer_extra_work(
    *,
    build: Acceptance,
    words: str,
    lines: Sequence[DraftLine],
    by: User,
    now: datetime,
    risk_if_declined: str = "",
) -> ExtraWork:
    """Price extra work and give it its number within the build, such as Q-2026-0001/2.

    The same offer once more while it waits (a second press) gives the one that waits. ValidationError where
    it says nothing or has no lines, DraftFaults for a line that can't be priced.
    """
    row = Acceptance.objects.select_for_update(of=("self",)).select_related("quote").get(pk=build.pk)
    if not lines:
        raise ValidationError({"lines": "Extra work without a line has no price: give it at least one."})
    offered = ExtraWork.objects.filter(build=row)
    index = (offered.aggregate(last=Max("index"))["last"] or 0) + 1
    refuse_line_faults(lines, on := timezone.localdate(now))
    for waiting in offered.waiting():
        if waiting.words == words.strip() and waiting.lines == _stored(lines, waiting.index):
            return waiting
    money = money_of(on)
    priced = invoice_lines(Draft(lines=tuple(lines)), money.tax_codes, money.decimals)
    sums = document_sums(priced, (), money.tax_codes, decimals=money.decimals)
    return save_checked(
        ExtraWork(
            build=row,
            index=index,
            words=words.strip(),
            risk_if_declined=risk_if_declined.strip(),
            lines=_stored(lines, index),
            net=sums.net,
            tax=sums.tax,
            gross=sums.gross,
            offered_at=now,
            offered_by=by,
        )
    )


def _stored(lines: Sequence[DraftLine], index: int) -> list[dict[str, object]]:
    """The lines as they are kept, each with the key by which an invoice asks for it."""
    keyed = (
        line.model_copy(update={"key": f"work:{index}:{number}"}) for number, line in enumerate(lines, 1)
    )
    return [line.model_dump(mode="json") for line in keyed]


@transaction.atomic
def answer_extra_work(
    *, extra: ExtraWork, accepted: bool, name: str, how: str, by: User, now: datetime, note: str = ""
) -> ExtraWork:
    """Record who on the customer's side said yes or no, when and how; `by` wrote it down.

    `how` is said in words; an answer by telephone needs the number called. The same answer once more gives
    the row as it stands. AlreadyAnswered for another answer, ValidationError by field.
    """
    row = ExtraWork.objects.select_for_update(of=("self",)).select_related("build__quote").get(pk=extra.pk)
    state = ExtraWorkState.ACCEPTED if accepted else ExtraWorkState.DECLINED
    name = name.strip()
    if row.state != ExtraWorkState.OFFERED:
        if (row.state, row.answered_by) == (state, name):
            return row
        raise AlreadyAnswered(row.number, row.get_state_display(), row.answered_by)
    _refuse_unsaid(name, how)
    row.state, row.answered_at, row.answered_by, row.answer_note = state, now, name, note.strip()
    row.answered_how = f"{how.strip()}; written down by {name_of(by)}"
    row.full_clean()
    row.save(update_fields=sorted(ExtraWork.LATER))
    return row


def _refuse_unsaid(name: str, how: str) -> None:
    faults = {}
    if not name:
        faults["name"] = "Who answered is not said: give the name of the person on the customer's side."
    if not how.strip():
        faults["how"] = "How it was answered is not said: in writing, or by telephone and at which number."
    elif SPOKEN.search(how) and not A_NUMBER.search(how):
        faults["how"] = f"{how.strip()!r} says a call but no number: give the number that was called."
    if faults:
        raise ValidationError(faults)
