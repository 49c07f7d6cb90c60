"""Writing a payment row once: the key of its form takes one payment, however often it is pressed."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from catalogue.calc.said import say
from quotes.actions.books.numbers import series_number
from quotes.actions.books.refused import KeyTaken
from quotes.actions.saving import checked
from quotes.models import Payment

SAME = ("kind", "customer_id", "build_id", "job_id", "deposit", "on", "amount", "method", "reverses_id")
"""What has to be alike for a second press to be the same payment."""


def kept_once(payment: Payment) -> tuple[Payment, bool]:
    """The payment numbered and kept, and whether it is new. KeyTaken where its key stands for another.

    Two that press at the same moment meet at the unique key: the second finds the payment of the first, and
    the number that it took falls back with its savepoint.
    """
    if not payment.key.strip():
        raise ValidationError({"key": say("The form has no key: open it anew.")})
    if standing := _standing(payment):
        return standing, False
    try:
        with transaction.atomic():
            payment.number = series_number(kind="R", on=payment.on)
            # Whether the key is taken only the database knows for certain.
            checked(payment, exclude={"key"}).save()
    except IntegrityError:
        standing = _standing(payment)
        if standing is None:
            raise
        return standing, False
    return payment, True


def _standing(payment: Payment) -> Payment | None:
    found = Payment.objects.filter(key=payment.key).first()
    if found and any(getattr(found, name) != getattr(payment, name) for name in SAME):
        raise KeyTaken(found.number)
    return found
