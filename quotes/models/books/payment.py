"""Money in and out, and what customers owe: payments, open items and how one settles the other."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from quotes.models.answer import Acceptance
from quotes.models.books.fields import sum_of_money
from quotes.models.frozen import Frozen, FrozenQuerySet


class PaymentMethod(models.TextChoices):
    CASH = "cash", _("cash")
    CARD = "card", _("card")
    TRANSFER = "transfer", _("bank transfer")
    CHEQUE = "cheque", _("cheque")


class PaymentKind(models.TextChoices):
    RECEIVED = "received", _("received")
    REFUND = "refund", _("paid back")
    REVERSAL = "reversal", _("taken back")


class PaymentQuerySet(FrozenQuerySet["Payment"]):
    def joined(self) -> PaymentQuerySet:
        return self.select_related("customer", "build__quote", "job", "item", "reverses")

    def deposits_of(self, build: Acceptance) -> PaymentQuerySet:
        """Deposits by receipt of a build, and of the strip-down before it."""
        of_job = Q(build=None, job__quote=build.quote_id)
        return self.filter(Q(build=build) | of_job, deposit=True)


class Payment(Frozen):
    """Money that came from a customer or went back to one. `amount` is above nought; `kind` says which way.

    `deposit` marks money held for a build, or for a job's strip-down, without a deposit invoice: a liability
    until it is invoiced. A reversal takes back a payment that did not hold, such as a cheque that bounced.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"receipt"})

    kind = models.CharField(max_length=8, choices=PaymentKind.choices)
    number = models.CharField(max_length=24, unique=True)
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="payments")
    build = models.ForeignKey("Acceptance", models.PROTECT, null=True, blank=True, related_name="payments")
    job = models.ForeignKey("Job", models.PROTECT, null=True, blank=True, related_name="payments")
    """Of a deposit for a strip-down: it is held for the job before there is a build."""
    deposit = models.BooleanField(default=False)
    on = models.DateField(db_index=True)
    amount = sum_of_money()
    currency = models.CharField(max_length=3)
    method = models.CharField(max_length=8, choices=PaymentMethod.choices)
    reference = models.CharField(max_length=140, blank=True, default="")
    note = models.CharField(max_length=300, blank=True, default="")
    reverses = models.OneToOneField("self", models.PROTECT, null=True, blank=True, related_name="reversed_by")
    key = models.CharField(max_length=64, unique=True)
    """Made by the form or the bank line that it came from, so that a second press takes no second payment."""
    taken_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    taken_at = models.DateTimeField()
    receipt = models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")

    objects = PaymentQuerySet.as_manager()

    class Meta:
        ordering = ["-on", "-id"]
        indexes = [
            models.Index(fields=["build"], condition=Q(deposit=True), name="payment_deposit"),
            # Few are reversals: SQLite reads an index that is nearly all nulls no longer.
            models.Index(fields=["reverses"], condition=Q(reverses__isnull=False), name="payment_reversal"),
        ]
        constraints = [
            models.CheckConstraint(condition=Q(amount__gt=0), name="payment_above_nought"),
            models.CheckConstraint(
                condition=(Q(kind="reversal") & Q(reverses__isnull=False))
                | (~Q(kind="reversal") & Q(reverses=None)),
                name="payment_reversal_has_original",
            ),
            models.CheckConstraint(
                condition=Q(deposit=False) | Q(build__isnull=False) | Q(job__isnull=False),
                name="payment_deposit_is_for_something",
            ),
        ]

    def __str__(self) -> str:
        return self.number


class WriteOffQuerySet(FrozenQuerySet["WriteOff"]):
    """Refuses change and deletion in bulk."""


class WriteOff(Frozen):
    """What the owner has given up asking for."""

    number = models.CharField(max_length=24, unique=True)
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="write_offs")
    on = models.DateField()
    amount = sum_of_money()
    reason = models.CharField(max_length=300)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField()

    objects = WriteOffQuerySet.as_manager()

    class Meta:
        ordering = ["-on", "-id"]
        constraints = [
            models.CheckConstraint(condition=Q(amount__gt=0), name="write_off_above_nought"),
            models.CheckConstraint(condition=~Q(reason=""), name="write_off_has_reason"),
        ]

    def __str__(self) -> str:
        return self.number


class ItemKind(models.TextChoices):
    INVOICE = "invoice", _("invoice")
    DEPOSIT = "deposit_invoice", _("deposit invoice")
    CREDIT = "credit_note", _("credit note")
    PAYMENT = "payment", _("payment")
    REFUND = "refund", _("paid back")
    WRITE_OFF = "write_off", _("written off")
    OPENING = "opening", _("opening balance")


class OpenItemQuerySet(models.QuerySet["OpenItem"]):
    def open(self) -> OpenItemQuerySet:
        return self.exclude(open_amount=0)

    def owed_to_us(self) -> OpenItemQuerySet:
        return self.filter(open_amount__gt=0)

    def owed_by_us(self) -> OpenItemQuerySet:
        """Credits that no invoice has used up yet."""
        return self.filter(open_amount__lt=0)

    def overdue(self, on: date) -> OpenItemQuerySet:
        return self.owed_to_us().filter(due_on__lt=on)

    def joined(self) -> OpenItemQuerySet:
        return self.select_related("customer", "invoice__build__quote", "payment", "write_off")


class OpenItem(models.Model):
    """One line of a customer's account. `amount` is above nought where the customer owes it.

    `open_amount` is what no allocation has settled yet; it moves only together with allocations and has the
    sign of `amount`. Deposits held without a deposit invoice are no open items until they are invoiced.
    """

    customer = models.ForeignKey("Customer", models.PROTECT, related_name="items")
    kind = models.CharField(max_length=16, choices=ItemKind.choices)
    number = models.CharField(max_length=24)
    on = models.DateField()
    due_on = models.DateField(null=True, blank=True, db_index=True)
    amount = sum_of_money()
    open_amount = sum_of_money()
    invoice = models.OneToOneField("Invoice", models.PROTECT, null=True, blank=True, related_name="item")
    payment = models.OneToOneField("Payment", models.PROTECT, null=True, blank=True, related_name="item")
    write_off = models.OneToOneField("WriteOff", models.PROTECT, null=True, blank=True, related_name="item")

    objects = OpenItemQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        indexes = [
            models.Index(fields=["customer", "on"], name="open_item_of_customer"),
            models.Index(
                fields=["due_on", "open_amount"], condition=Q(open_amount__gt=0), name="open_item_owed_to_us"
            ),
            models.Index(fields=["customer"], condition=Q(open_amount__lt=0), name="open_item_owed_by_us"),
        ]
        constraints = [
            models.CheckConstraint(
                condition=Q(amount__gte=0, open_amount__gte=0, open_amount__lte=F("amount"))
                | Q(amount__lte=0, open_amount__lte=0, open_amount__gte=F("amount")),
                name="open_amount_within_amount",
            )
        ]

    def __str__(self) -> str:
        return self.number


class AllocationQuerySet(FrozenQuerySet["Allocation"]):
    """Refuses change and deletion in bulk."""


class Allocation(Frozen):
    """So much of a credit (payment, credit note) settles so much of a debit (invoice, refund)."""

    debit = models.ForeignKey(OpenItem, models.PROTECT, related_name="settled_by")
    credit = models.ForeignKey(OpenItem, models.PROTECT, related_name="settles")
    amount = sum_of_money()
    """Above nought settles; a negative one undoes an earlier one, as after a cheque that bounced."""
    on = models.DateField()
    at = models.DateTimeField()
    by = models.CharField(max_length=150)

    objects = AllocationQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]
        indexes = [models.Index(fields=["on"], name="allocation_on")]
        constraints = [
            models.CheckConstraint(condition=~Q(amount=0), name="allocation_is_not_nought"),
            models.CheckConstraint(condition=~Q(debit=F("credit")), name="allocation_of_two_items"),
        ]

    def __str__(self) -> str:
        return f"{self.amount} of {self.credit} on {self.debit}"
