"""How the workshop invoices and keeps its books: one row, and its chart of accounts."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import to_say


class DepositBy(models.TextChoices):
    INVOICE = "invoice", _("deposit invoice, with tax")
    RECEIPT = "receipt", _("receipt, without tax")


class Series(models.TextChoices):
    KIND_AND_YEAR = "kind-and-year", _("one for each kind and year: I-2026-0001")
    KIND = "kind", _("one for each kind, through the years: I-00001")


class LabourBy(models.TextChoices):
    QUOTED = "quoted", _("the hours quoted")
    CLOCKED = "clocked", _("the hours clocked")


class BooksSettings(models.Model):
    """Set by the owner or the bookkeeper. Defaults are common practice, no source."""

    ONLY_ID = 1
    PAYMENT_WORDS = to_say("Before the engine leaves the workshop")

    country = models.CharField(max_length=2, blank=True, default="")
    account_name = models.CharField(max_length=70, blank=True, default="")
    iban = models.CharField(max_length=34, blank=True, default="")
    bic = models.CharField(max_length=11, blank=True, default="")
    payment_days = models.PositiveSmallIntegerField(default=0, validators=[MaxValueValidator(365)])
    payment_words = models.CharField(max_length=200, default=PAYMENT_WORDS)
    deposit_by = models.CharField(max_length=8, choices=DepositBy.choices, default=DepositBy.INVOICE)
    series = models.CharField(max_length=16, choices=Series.choices, default=Series.KIND_AND_YEAR)
    labour_by = models.CharField(max_length=8, choices=LabourBy.choices, default=LabourBy.QUOTED)
    late_pct_a_year = models.DecimalField(
        max_digits=6,
        decimal_places=3,
        default=Decimal(0),
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(100))],
    )
    late_after_days = models.PositiveSmallIntegerField(default=14, validators=[MaxValueValidator(365)])
    labour_cost_an_hour = models.DecimalField(
        max_digits=8,
        decimal_places=2,
        default=Decimal(0),
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(10_000))],
    )
    years_kept = models.PositiveSmallIntegerField(
        default=10, validators=[MinValueValidator(1), MaxValueValidator(50)]
    )
    version = models.PositiveIntegerField(default=0)
    changed_at = models.DateTimeField(null=True, blank=True)
    changed_by = models.CharField(max_length=150, blank=True, default="")

    objects: ClassVar[models.Manager[BooksSettings]] = models.Manager()

    class Meta:
        constraints = [models.CheckConstraint(condition=Q(id=1), name="books_settings_is_one_row")]

    def __str__(self) -> str:
        return "Books"


class BooksAccount(models.Model):
    """The shop's own code and name for an account, by its part in the entries (`calc.books.values.Role`)."""

    role = models.CharField(max_length=32, unique=True)
    code = models.CharField(max_length=20)
    name = models.CharField(max_length=80)

    objects: ClassVar[models.Manager[BooksAccount]] = models.Manager()

    class Meta:
        ordering = ["code", "id"]

    def __str__(self) -> str:
        return f"{self.code} {self.name}"
