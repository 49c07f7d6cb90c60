"""Payment reminders: what was claimed on which day, and each time that one was sent."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from quotes.models.bench.fields import file_or_none, once_key, person, said
from quotes.models.books.fields import sum_of_money
from quotes.models.frozen import Frozen, FrozenQuerySet


class SentHow(models.TextChoices):
    LETTER = "letter", _("letter")
    REGISTERED = "registered", _("registered letter")
    EMAIL = "email", _("e-mail")
    MESSAGE = "message", _("message")
    HANDED = "handed", _("handed over")


class PaymentReminderQuerySet(FrozenQuerySet["PaymentReminder"]):
    def with_last_sending(self) -> PaymentReminderQuerySet:
        """Each with the day on which it was sent last, and how."""
        last = ReminderSent.objects.filter(reminder=models.OuterRef("pk")).order_by("-on", "-pk")
        return self.annotate(
            sent_on=models.Subquery(last.values("on")[:1]), sent_how=models.Subquery(last.values("how")[:1])
        )


class PaymentReminder(Frozen):
    """What a customer was asked to pay that was overdue. `sheet` is `quotes.calc.books.papers.ReminderPaper`.

    It is a letter and no document of the books: nothing is owed by it that was not owed before.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf"})

    key = once_key()
    number = models.CharField(max_length=24, unique=True)
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="payment_reminders")
    on = models.DateField(db_index=True)
    pay_by = models.DateField()
    amount = sum_of_money()
    currency = models.CharField(max_length=3)
    sheet = models.JSONField()
    at = models.DateTimeField()
    by = person()
    pdf = file_or_none()

    objects = PaymentReminderQuerySet.as_manager()

    class Meta:
        ordering = ["-on", "-id"]
        constraints = [
            models.CheckConstraint(condition=Q(amount__gt=0), name="payment_reminder_above_nought"),
            models.CheckConstraint(
                condition=Q(pay_by__gte=F("on")), name="payment_reminder_leaves_time_to_pay"
            ),
        ]

    def __str__(self) -> str:
        return self.number

    @property
    def how_said(self) -> str:
        """How it was sent last, in words, where that was asked for with the row."""
        how = getattr(self, "sent_how", None)
        return str(SentHow(how).label) if how else ""


class ReminderSent(Frozen):
    """One time that a reminder was sent: when, how, to which address, and what shows it."""

    key = once_key()
    reminder = models.ForeignKey(PaymentReminder, models.PROTECT, related_name="sendings")
    on = models.DateField()
    how = models.CharField(max_length=10, choices=SentHow.choices)
    to = models.CharField(max_length=400)
    proof = said()
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[ReminderSent]] = models.Manager()

    class Meta:
        ordering = ["on", "id"]
        constraints = [models.CheckConstraint(condition=~Q(to=""), name="reminder_sent_to_somebody")]

    def __str__(self) -> str:
        return f"{self.reminder}, {self.on}"
