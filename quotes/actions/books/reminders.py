"""Reminding a customer of what is overdue: the letter, and each time that it was sent."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date, datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.books.drawing import PDF
from quotes.actions.numbers import next_number
from quotes.actions.saving import save_checked
from quotes.actions.storing import store_file
from quotes.calc.books.papers import ReminderPaper
from quotes.models import Customer, OpenItem, PaymentReminder, ReminderSent
from quotes.queries.books.reminders import claimable, reminder_paper

SERIES = "N"
"""A notice: the letter R is that of receipts."""


@transaction.atomic
def make_reminder(
    *,
    customer: Customer,
    items: Collection[int],
    pay_by: date,
    words: str,
    key: UUID,
    by: User,
    now: datetime,
) -> PaymentReminder:
    """A numbered reminder of these open items, with its paper; the same key again gives the one made.

    ValidationError by field where nothing of it is overdue any more, or there is no time left to pay.
    """
    if made := PaymentReminder.objects.filter(key=key).first():
        return made
    on = timezone.localdate(now)
    chosen = _still_overdue(customer, items, on)
    if pay_by < on:
        raise ValidationError(
            {"pay_by": say("{day} is past: today, {today}, or later.", day=pay_by, today=on)}
        )
    number = next_number(kind=SERIES, year=on.year)
    paper = reminder_paper(customer, chosen, number=number, on=on, pay_by=pay_by, words=words.strip())
    return save_checked(
        PaymentReminder(
            key=key,
            number=number,
            customer=customer,
            on=on,
            pay_by=pay_by,
            amount=paper.sum,
            currency=paper.currency,
            sheet=paper.model_dump(mode="json"),
            at=now,
            by=by,
            pdf=store_file(name=f"{number}.pdf", content_type=PDF, content=drawn_reminder(paper), now=now),
        )
    )


def _still_overdue(customer: Customer, items: Collection[int], on: date) -> list[OpenItem]:
    chosen = list(claimable(customer, on).filter(pk__in=items))
    if not items:
        raise ValidationError({"items": say("Nothing is picked: a reminder claims one document or more.")})
    if len(chosen) < len({*items}):
        raise ValidationError(
            {"items": say("What is picked is not all overdue any more: look at what is left.")}
        )
    return chosen


def drawn_reminder(paper: ReminderPaper) -> bytes:
    """The reminder as PDF."""
    from quotes.documents.invoice.payments import reminder_pdf  # takes a second to import

    return reminder_pdf(paper)


@transaction.atomic
def note_sent(
    *,
    reminder: PaymentReminder,
    on: date,
    how: str,
    to: str,
    proof: str,
    key: UUID,
    by: User,
    now: datetime,
) -> ReminderSent:
    """Write down that a reminder was sent; the same key again is once. ValidationError by field."""
    if kept := ReminderSent.objects.filter(key=key).first():
        return kept
    today = timezone.localdate(now)
    if not reminder.on <= on <= today:
        raise ValidationError(
            {
                "on": say(
                    "{day} is not between {first}, when it was made, and {today}.",
                    day=on,
                    first=reminder.on,
                    today=today,
                )
            }
        )
    row = ReminderSent(
        key=key, reminder=reminder, on=on, how=how, to=to.strip(), proof=proof.strip(), at=now, by=by
    )
    return save_checked(row)
