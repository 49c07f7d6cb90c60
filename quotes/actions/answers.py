"""What customers say on their page: yes to an option, a question, no; and the workshop's answer."""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import round_half_up
from quotes.actions.drafts import locked, refuse_accepted
from quotes.actions.files import render_receipt
from quotes.actions.refused import AlreadyAccepted, Lapsed, QuoteClosed, Superseded
from quotes.actions.saving import checked, save_checked
from quotes.calc.money.extras import accepted_gross, extras_of
from quotes.calc.sheet.values import Option, Sheet
from quotes.models import Acceptance, Quote, Reply, ReplyKind, Revision
from quotes.queries.people import name_of
from quotes.queries.sheets import sheet_of


@transaction.atomic
def accept(
    *,
    revision: Revision,
    tier: str,
    extras: Collection[str],
    name: str,
    right: str,
    telephone: str,
    limit_sum: Decimal,
    agreed_terms: bool,
    now: datetime,
    rider_safety_read: bool = False,
) -> Acceptance:
    """Record the yes to one option of the revision that stands, with the sum and fingerprint shown.

    `extras` are components that the option offers. The same yes once more gives the same acceptance.
    Raises AlreadyAccepted, QuoteClosed, Superseded, Lapsed, or ValidationError with a message by field.
    """
    row = locked(revision.quote)
    wanted = sorted(set(extras))
    if row.accepted_at is not None:
        return _same_again(row.acceptance, revision, tier, wanted, name)
    _refuse_fallen(row, revision, now)
    sheet = sheet_of(revision)
    option = _option(sheet, tier, wanted)
    if not agreed_terms:
        raise ValidationError({"agreed_terms": "The terms have to be agreed to for a yes to count."})
    if limit_sum < 0:
        raise ValidationError(
            {"limit_sum": f"{limit_sum} is below nought: 0.00 means that you are asked first."}
        )
    acceptance = save_checked(
        Acceptance(
            quote=row,
            revision=revision,
            tier=tier,
            tier_name=option.name,
            extras=wanted,
            name=name.strip(),
            right=right.strip(),
            telephone=telephone.strip(),
            limit_pct=sheet.limit_without_asking_pct,
            limit_sum=limit_sum,
            gross=accepted_gross(option, wanted, sheet.comparison.decimals),
            deposit=option.deposit,
            hours=round_half_up(option.hours),
            ready_on=option.ready.p80,
            sheet_sha256=revision.sheet_sha256,
            agreed_terms=agreed_terms,
            rider_safety_read=rider_safety_read,
            accepted_at=now,
        )
    )
    row.accepted_at, row.asked_at, row.declined_at = now, None, None
    row.save(update_fields=["accepted_at", "asked_at", "declined_at"])
    transaction.on_commit(lambda: render_receipt(acceptance_id=acceptance.pk), robust=True)
    return acceptance


def _same_again(
    acceptance: Acceptance, revision: Revision, tier: str, extras: list[str], name: str
) -> Acceptance:
    same = (revision.pk, tier, extras, name.strip())
    if same == (acceptance.revision_id, acceptance.tier, acceptance.extras, acceptance.name):
        return acceptance
    raise AlreadyAccepted(acceptance)


def _refuse_fallen(row: Quote, revision: Revision, now: datetime) -> None:
    """QuoteClosed, Superseded or Lapsed where this revision can no longer be said yes to."""
    if row.closed_at is not None:
        raise QuoteClosed
    if row.latest is None or row.latest.pk != revision.pk:
        raise Superseded(row.latest or revision)
    if revision.is_lapsed(timezone.localdate(now)):
        raise Lapsed(revision.valid_until)


def _option(sheet: Sheet, tier: str, wanted: Collection[str]) -> Option:
    try:
        option = sheet.comparison.option(tier)
    except KeyError:
        offered = ", ".join(option.tier for option in sheet.comparison.options)
        raise ValidationError({"tier": f"This quote does not hold {tier!r}. It holds: {offered}."}) from None
    known = {extra.component for extra in extras_of(option)}
    if strange := sorted(set(wanted) - known):
        raise ValidationError({"extras": f"Not offered with {option.name}: {', '.join(strange)}."})
    return option


@transaction.atomic
def ask(*, revision: Revision, text: str, name: str, now: datetime) -> Reply:
    """Keep a customer's question; sent twice it is kept once."""
    row = locked(revision.quote)
    if not text.strip():
        raise ValidationError({"text": "Write what you would like to know."})
    reply = checked(
        Reply(revision=revision, kind=ReplyKind.QUESTION, text=text.strip(), name=name.strip(), at=now)
    )
    same = Reply.objects.unanswered().filter(revision=revision, text=reply.text, name=reply.name).first()
    if same:
        return same
    reply.save()
    if row.accepted_at is None and row.closed_at is None:
        row.asked_at = row.asked_at or now
        row.save(update_fields=["asked_at"])
    return reply


@transaction.atomic
def decline(*, revision: Revision, text: str, name: str, now: datetime) -> Reply:
    """Keep a customer's no with its reason; sent twice it is kept once. After a yes: AlreadyAccepted."""
    row = locked(revision.quote)
    refuse_accepted(row)
    reply = checked(
        Reply(revision=revision, kind=ReplyKind.DECLINE, text=text.strip(), name=name.strip(), at=now)
    )
    said = Reply.objects.filter(revision=revision, kind=ReplyKind.DECLINE, text=reply.text).first()
    if said and row.declined_at is not None:
        return said
    reply.save()
    row.declined_at, row.asked_at = now, None
    row.save(update_fields=["declined_at", "asked_at"])
    return reply


@transaction.atomic
def answer(*, reply: Reply, text: str, by: User, now: datetime) -> Reply:
    """Note what was answered to a question; the quote is asked about until all are answered."""
    row = locked(reply.revision.quote)
    reply = Reply.objects.select_for_update().get(pk=reply.pk)
    if reply.answered_at is None:
        reply.answer, reply.answered_at, reply.answered_by = text.strip(), now, name_of(by)
        save_checked(reply)
    if not Reply.objects.unanswered().filter(revision__quote=row).exists():
        row.asked_at = None
        row.save(update_fields=["asked_at"])
    return reply


@transaction.atomic
def mark_done(*, acceptance: Acceptance, by: User, now: datetime) -> Acceptance:
    """Take an accepted build off the bench: its hours no longer stand before new jobs."""
    row = Acceptance.objects.select_for_update().get(pk=acceptance.pk)
    if row.done_at is None:
        row.done_at, row.done_by = now, name_of(by)
        row.save(update_fields=["done_at", "done_by"])
    return row
