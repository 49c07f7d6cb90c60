"""A bank's statement as a file: its lines, what each was matched with, and that none is taken twice."""

from __future__ import annotations

from typing import ClassVar

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from quotes.models.books.fields import sum_of_money


class BankColumns(models.Model):
    """Which column is what in the files of one bank, known again by their heads."""

    heads_sha256 = models.CharField(max_length=64, unique=True)
    columns = models.JSONField()
    used_at = models.DateTimeField()

    objects: ClassVar[models.Manager[BankColumns]] = models.Manager()

    def __str__(self) -> str:
        return self.heads_sha256[:8]


class BankFile(models.Model):
    """A file that was read. The same bytes are known again by their fingerprint."""

    name = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64, unique=True)
    content = models.OneToOneField("StoredFile", models.PROTECT, related_name="+")
    reading = models.JSONField(default=dict, blank=True)
    """Columns, decimal mark, order of the date and character set as chosen."""
    kept_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    kept_at = models.DateTimeField()

    objects: ClassVar[models.Manager[BankFile]] = models.Manager()

    class Meta:
        ordering = ["-kept_at", "-id"]

    def __str__(self) -> str:
        return self.name


class BankLineState(models.TextChoices):
    WAITING = "waiting", _("waiting")
    TAKEN = "taken", _("taken as a payment")
    PUT_ASIDE = "put_aside", _("put aside")


class BankLineQuerySet(models.QuerySet["BankLine"]):
    def waiting(self) -> BankLineQuerySet:
        return self.filter(state=BankLineState.WAITING)


class BankLine(models.Model):
    """One line of a statement. `fingerprint` is of day, sum, texts and which of several alike it is."""

    file = models.ForeignKey(BankFile, models.PROTECT, related_name="lines")
    row = models.PositiveIntegerField()
    on = models.DateField()
    amount = sum_of_money()
    payer = models.CharField(max_length=200, blank=True, default="")
    text = models.CharField(max_length=500, blank=True, default="")
    fingerprint = models.CharField(max_length=64, unique=True)
    state = models.CharField(max_length=12, choices=BankLineState.choices, default=BankLineState.WAITING)
    payment = models.OneToOneField("Payment", models.PROTECT, null=True, blank=True, related_name="bank_line")
    note = models.CharField(max_length=300, blank=True, default="")

    objects = BankLineQuerySet.as_manager()

    class Meta:
        ordering = ["file", "row"]

    def __str__(self) -> str:
        return f"{self.on} {self.amount}"
