"""What a strip-down costs, the receipt that the customer takes home, and the no that may come after it."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from quotes.models.bench.fields import file_or_none, person, said
from quotes.models.bench.job import IfNot, Job
from quotes.models.booking import SaidHow
from quotes.models.frozen import Frozen, FrozenQuerySet


def asked() -> models.DecimalField[Decimal, Decimal]:
    """A field for a price with tax, in the workshop's currency."""
    return models.DecimalField(
        max_digits=12,
        decimal_places=2,
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal("9999999.99"))],
    )


class TeardownPrice(models.Model):
    """What the owner asks for a strip-down of one engine type, with tax; else it is worked out."""

    type_code = models.CharField(max_length=64, unique=True)
    price = asked()
    put_back_price = asked()
    deposit = asked()

    objects: ClassVar[models.Manager[TeardownPrice]] = models.Manager()

    class Meta:
        ordering = ["type_code"]
        constraints = [
            models.CheckConstraint(
                condition=Q(price__gte=0, put_back_price__gte=0, deposit__gte=0),
                name="teardown_prices_not_negative",
            )
        ]

    def __str__(self) -> str:
        return f"{self.type_code}: {self.price}"


class IntakeReceiptQuerySet(FrozenQuerySet["IntakeReceipt"]):
    """Refuses change and deletion in bulk."""


class IntakeReceipt(Frozen):
    """The receipt for an engine as it was given out; one more where photos or words came to it since.

    `sheet` is `quotes.calc.bench.receipt.ReceiptSheet` as JSON.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf"})

    job = models.ForeignKey(Job, models.PROTECT, related_name="receipts")
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    given_at = models.DateTimeField()
    given_by = said(150)
    pdf = file_or_none()

    objects = IntakeReceiptQuerySet.as_manager()

    class Meta:
        ordering = ["given_at", "id"]
        constraints = [
            models.UniqueConstraint(fields=["job", "sheet_sha256"], name="intake_receipt_once_a_state")
        ]

    def __str__(self) -> str:
        return f"Receipt for {self.job}"


class TeardownDeclinedQuerySet(FrozenQuerySet["TeardownDeclined"]):
    """Refuses change and deletion in bulk."""


class TeardownDeclined(Frozen):
    """The customer's no after the engine was taken in: what becomes of it, who said so, and how.

    `draft` is the invoice of the strip-down that was begun for it, where one is owed.
    """

    job = models.OneToOneField(Job, models.PROTECT, related_name="went_no_further")
    outcome = models.CharField(max_length=12, choices=IfNot.choices)
    name = models.CharField(max_length=200)
    how = models.CharField(max_length=10, choices=SaidHow.choices)
    telephone = said(40)
    words = said(500)
    draft = models.ForeignKey("InvoiceDraft", models.PROTECT, null=True, blank=True, related_name="+")
    said_at = models.DateTimeField()
    written_by = person()

    objects = TeardownDeclinedQuerySet.as_manager()

    class Meta:
        ordering = ["said_at", "id"]
        constraints = [models.CheckConstraint(condition=~Q(name=""), name="teardown_declined_by_somebody")]

    def __str__(self) -> str:
        return f"{self.job}: {self.get_outcome_display()}"
