"""Extra work found after the yes: offered with its price, answered once, never changed afterwards."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.bench.refused import MustAsk, NotBuiltSo
from quotes.actions.books.calling_off import refuse_called_off
from quotes.actions.books.checks import refuse_line_faults
from quotes.actions.books.refused import AlreadyAnswered
from quotes.actions.saving import save_checked
from quotes.calc.bench.again.committed import Touches
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.sums import document_sums, invoice_lines
from quotes.calc.invoice.values import Sums
from quotes.models import Acceptance, ExtraWork, ExtraWorkState, FindingSeen, Photo, Workshop
from quotes.models.books.build import ExtraWorkQuerySet
from quotes.queries.bench.again.committed import committed_of, promised_on, stopped_by
from quotes.queries.books.day import money_of
from quotes.queries.people import name_of

SPOKEN = re.compile(r"telephone|phone|call|rang|spoke", re.IGNORECASE)
"""Words that say an answer was given by telephone."""
SIGNED = re.compile(r"writing|written|signed|signature|page", re.IGNORECASE)
"""Words that say that the answer was put in writing."""
A_NUMBER = re.compile(r"\d[\d ()/.-]{3,}\d")


@dataclass(frozen=True, slots=True)
class About:
    """What an offer bears on besides its price; `touches` beside the sum, which is reckoned."""

    touches: tuple[Touches, ...] = ()
    components: tuple[str, ...] = ()
    rider_safety: bool = False
    new_ready_on: date | None = None
    photo: Photo | None = None
    finding: FindingSeen | None = None


NOTHING_NAMED = About()


@transaction.atomic
def offer_extra_work(
    *,
    build: Acceptance,
    words: str,
    lines: Sequence[DraftLine],
    by: User,
    now: datetime,
    risk_if_declined: str = "",
    about: About = NOTHING_NAMED,
    within_limit: bool = False,
) -> ExtraWork:
    """Price extra work and give it its number within the build, such as Q-2026-0001/2.

    `within_limit` does it without asking: MustAsk says why that can't be. The same offer once more while it
    waits (a second press) gives the one that waits. ValidationError where it says nothing or has no lines,
    DraftFaults for a line that can't be priced.
    """
    row = Acceptance.objects.select_for_update(of=("self",)).select_related("quote").get(pk=build.pk)
    refuse_called_off(row)
    if not lines:
        raise ValidationError({"lines": say("Extra work without a line has no price: give it at least one.")})
    refuse_line_faults(lines, on := timezone.localdate(now))
    offered = ExtraWork.objects.filter(build=row)
    if waiting := _waiting(offered, words.strip(), lines):
        return waiting
    sums, committed = _sums(lines, on), committed_of(row, offered)
    reasons = committed.must_ask(sums.gross, about.touches)
    if within_limit and reasons:
        raise MustAsk(reasons)
    extra = ExtraWork(build=row, words=words.strip(), risk_if_declined=risk_if_declined.strip())
    extra.index = (offered.aggregate(last=Max("index"))["last"] or 0) + 1
    extra.lines = _stored(lines, extra.index)
    extra.net, extra.tax, extra.gross = sums.net, sums.tax, sums.gross
    extra.old_gross, extra.new_gross = committed.total, committed.total + sums.gross
    extra.state = ExtraWorkState.WITHIN if within_limit else ExtraWorkState.OFFERED
    extra.touches = list(reasons)
    extra.stops = [] if within_limit else list(stopped_by(row, about.components))
    extra.components, extra.rider_safety = list(about.components), about.rider_safety
    extra.old_ready_on, extra.new_ready_on = promised_on(row), about.new_ready_on
    extra.photo, extra.finding = about.photo, about.finding
    extra.offered_at, extra.offered_by = now, by
    return save_checked(extra)


def _waiting(offered: ExtraWorkQuerySet, words: str, lines: Sequence[DraftLine]) -> ExtraWork | None:
    """The same offer, where it waits for its answer."""
    for waiting in offered.waiting():
        if waiting.words == words and waiting.lines == _stored(lines, waiting.index):
            return waiting
    return None


def _sums(lines: Sequence[DraftLine], on: date) -> Sums:
    money = money_of(on)
    priced = invoice_lines(Draft(lines=tuple(lines)), money.tax_codes, money.decimals)
    return document_sums(priced, (), money.tax_codes, decimals=money.decimals)


def _stored(lines: Sequence[DraftLine], index: int) -> list[dict[str, object]]:
    """The lines as they are kept, each with the key by which an invoice asks for it."""
    keyed = (
        line.model_copy(update={"key": f"work:{index}:{number}"}) for number, line in enumerate(lines, 1)
    )
    return [line.model_dump(mode="json") for line in keyed]


@transaction.atomic
def answer_extra_work(
    *, extra: ExtraWork, accepted: bool, name: str, how: str, by: User | None, now: datetime, note: str = ""
) -> ExtraWork:
    """Record who on the customer's side said yes or no, when and how; `by` wrote it down, None: he himself.

    `how` is said in words; an answer by telephone needs the number called, and a no to what bears on the
    rider's safety needs a signature. The same answer once more gives the row as it stands. AlreadyAnswered
    for another answer, NotBuiltSo where the owner builds no engine without it, ValidationError by field.
    """
    row = ExtraWork.objects.select_for_update(of=("self",)).select_related("build__quote").get(pk=extra.pk)
    state = ExtraWorkState.ACCEPTED if accepted else ExtraWorkState.DECLINED
    name = name.strip()
    if row.state != ExtraWorkState.OFFERED:
        if (row.state, row.answered_by) == (state, name):
            return row
        raise AlreadyAnswered(row.number, row.get_state_display(), row.answered_by)
    refuse_unsaid(name, how)
    if row.rider_safety and not accepted:
        refuse_unsafe(how)
    row.state, row.answered_at, row.answered_by, row.answer_note = state, now, name, note.strip()
    row.answered_how = f"{how.strip()}; written down by {name_of(by)}" if by else how.strip()
    row.full_clean()
    row.save(update_fields=sorted(ExtraWork.LATER))
    return row


@transaction.atomic
def withdraw_extra_work(*, extra: ExtraWork) -> ExtraWork:
    """Take back an offer that nobody has answered; its work is not held up any more."""
    row = ExtraWork.objects.select_for_update(of=("self",)).select_related("build__quote").get(pk=extra.pk)
    if row.state == ExtraWorkState.WITHDRAWN:
        return row
    if row.state != ExtraWorkState.OFFERED:
        raise AlreadyAnswered(row.number, row.get_state_display(), row.answered_by)
    row.state = ExtraWorkState.WITHDRAWN
    row.save(update_fields=["state"])
    return row


def refuse_unsafe(how: str) -> None:
    """Leaving what bears on the rider's safety takes a signature; the owner may refuse it altogether."""
    if Workshop.objects.get_or_default().refuses_unsafe:
        raise NotBuiltSo
    if not SIGNED.search(how) or SPOKEN.search(how):
        raise ValidationError(
            {
                "how": say(
                    "{how} is no signature: a part that can lock the rear wheel or oil the tyre stays as "
                    "it is only by a refusal in writing, signed.",
                    how=repr(how.strip()),
                )
            }
        )


def refuse_unsaid(said_by: str, how: str, *, name: str = "name") -> None:
    """ValidationError where it is not said who answered or how; `name` is the field of the first."""
    faults = {}
    if not said_by:
        faults[name] = say("Who answered is not said: give the name of the person on the customer's side.")
    if not how.strip():
        faults["how"] = say(
            "How it was answered is not said: in writing, or by telephone and at which number."
        )
    elif SPOKEN.search(how) and not A_NUMBER.search(how):
        faults["how"] = say(
            "{how} says a call but no number: give the number that was called.", how=repr(how.strip())
        )
    if faults:
        raise ValidationError(faults)
