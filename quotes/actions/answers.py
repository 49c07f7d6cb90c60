"""What customers say besides yes: a question or a no; and the workshop's answer."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.drafts import locked, refuse_accepted
from quotes.actions.saving import checked, save_checked
from quotes.models import Reply, ReplyKind, Revision
from quotes.queries.people import name_of


@transaction.atomic
def ask(*, revision: Revision, text: str, name: str, now: datetime) -> Reply:
    """Keep a customer's question; sent twice it is kept once."""
    row = locked(revision.quote)
    if not text.strip():
        raise ValidationError({"text": say("Write what you would like to know.")})
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
