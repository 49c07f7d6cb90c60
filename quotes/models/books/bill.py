"""Suppliers' bills: what was bought, for which build, with which tax, and when it is to be paid."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.books.fields import net_and_tax_are_gross, sum_of_money
from quotes.models.books.payment import PaymentMethod
from quotes.models.frozen import Frozen, FrozenQuerySet


class BillLineKind(models.TextChoices):
    PART = "part", _("parts")
    MACHINE_WORK = "machine_work", _("machine work")
    FREIGHT = "freight", _("freight")
    STOCK = "stock", _("parts for stock")
    OVERHEAD = "overhead", _("overheads")


class SupplierBillQuerySet(FrozenQuerySet["SupplierBill"]):
    def standing(self) -> SupplierBillQuerySet:
        """Neither taken back nor taking another back."""
        return self.filter(taken_back_at=None, reverses=None)

    def unpaid(self) -> SupplierBillQuerySet:
        """What there is to pay: an unpaid bill and the one that took it back settle each other."""
        settles = Q(reverses__isnull=False) & Q(reverses__payment=None)
        return self.filter(payment=None, taken_back_at=None).exclude(settles)

    def due_by(self, on: date) -> SupplierBillQuerySet:
        return self.unpaid().filter(due_on__lte=on)


class SupplierBill(Frozen):
    """A bill or, with negative sums, a supplier's credit note. Wrong ones are reversed by another."""

    LATER: ClassVar[frozenset[str]] = frozenset({"taken_back_at"})

    number = models.CharField(max_length=24, unique=True)
    """Ours."""
    supplier = models.CharField(max_length=120)
    supplier_number = models.CharField(max_length=60)
    """The supplier's."""
    on = models.DateField(db_index=True)
    due_on = models.DateField(null=True, blank=True)
    net = sum_of_money()
    tax = sum_of_money()
    gross = sum_of_money()
    note = models.CharField(max_length=300, blank=True, default="")
    entered_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    entered_at = models.DateTimeField()
    reverses = models.OneToOneField("self", models.PROTECT, null=True, blank=True, related_name="reversed_by")
    taken_back_at = models.DateTimeField(null=True, blank=True)
    """When another reversed it: from then on its number may be entered anew."""

    objects = SupplierBillQuerySet.as_manager()

    class Meta:
        ordering = ["-on", "-id"]
        indexes = [
            models.Index(fields=["reverses"], condition=Q(reverses__isnull=False), name="bill_reversal"),
            models.Index(fields=["supplier"], name="bill_by_supplier"),
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["supplier", "supplier_number"],
                condition=Q(reverses=None, taken_back_at=None),
                name="supplier_bill_entered_once",
                violation_error_message=_("A bill of that supplier with that number stands in the books."),
            ),
            net_and_tax_are_gross("supplier_bill_net_and_tax_are_gross"),
        ]

    def __str__(self) -> str:
        return self.number


class BillLineQuerySet(FrozenQuerySet["BillLine"]):
    """Refuses change and deletion in bulk."""


class BillLine(Frozen):
    """A share of a bill: what sort of thing, for which build."""

    bill = models.ForeignKey(SupplierBill, models.PROTECT, related_name="lines")
    order = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=16, choices=BillLineKind.choices)
    description = models.CharField(max_length=200)
    net = sum_of_money()
    build = models.ForeignKey("Acceptance", models.PROTECT, null=True, blank=True, related_name="bill_lines")

    objects = BillLineQuerySet.as_manager()

    class Meta:
        ordering = ["bill", "order"]
        constraints = [
            models.UniqueConstraint(fields=["bill", "order"], name="bill_line_order_once"),
            models.CheckConstraint(
                condition=Q(build=None) | ~Q(kind__in=["stock", "overhead"]),
                name="bill_line_of_build_is_for_it",
            ),
        ]

    def __str__(self) -> str:
        return self.description


class BillPaymentQuerySet(FrozenQuerySet["BillPayment"]):
    """Refuses change and deletion in bulk."""


class BillPayment(Frozen):
    """The day a bill was paid, in full."""

    bill = models.OneToOneField(SupplierBill, models.PROTECT, related_name="payment")
    on = models.DateField()
    method = models.CharField(max_length=8, choices=PaymentMethod.choices)
    paid_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    paid_at = models.DateTimeField()

    objects = BillPaymentQuerySet.as_manager()

    class Meta:
        ordering = ["-on", "-id"]

    def __str__(self) -> str:
        return f"{self.bill} paid"


class StockUseQuerySet(FrozenQuerySet["StockUse"]):
    """Refuses change and deletion in bulk."""


class StockUse(Frozen):
    """Parts taken from the shelf for a build, at what they cost; negative where they go back."""

    build = models.ForeignKey("Acceptance", models.PROTECT, related_name="stock_used")
    description = models.CharField(max_length=200)
    component = models.CharField(max_length=64, blank=True, default="")
    quantity = models.DecimalField(max_digits=10, decimal_places=3)
    cost = sum_of_money()
    on = models.DateField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField()

    objects = StockUseQuerySet.as_manager()

    class Meta:
        ordering = ["on", "id"]
        constraints = [models.CheckConstraint(condition=~Q(quantity=0), name="stock_use_of_something")]

    def __str__(self) -> str:
        return self.description
