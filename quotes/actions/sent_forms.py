"""Writes on forms that were sent: one effect for each, however often it comes."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import IntegrityError, transaction

from quotes.models import SentForm

KEPT = timedelta(days=2)
"""Longer than a sign-in lasts, and with it the page that a form stands on."""


def begin_form(*, key: str, now: datetime) -> str | None:
    """None where the form is new; else where its first sending led.

    Runs inside the transaction of what the form does: a second sending waits here for the end of the first.
    """
    try:
        with transaction.atomic():
            SentForm(key=key, at=now).save(force_insert=True)
    except IntegrityError:
        return SentForm.objects.get(key=key).led_to
    return None


def finish_form(*, key: str, led_to: str) -> None:
    """The form has had its effect."""
    SentForm.objects.filter(key=key).update(led_to=led_to)


def drop_form(*, key: str) -> None:
    """The form did nothing, so it may come again."""
    SentForm.objects.filter(key=key).delete()


def forget_forms(*, now: datetime) -> None:
    """Forms that nobody can still have before him."""
    SentForm.objects.filter(at__lt=now - KEPT).delete()
