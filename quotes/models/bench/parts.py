"""Parts on the way: purchase orders, what became of each line, substitutes, cores and own parts."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.bench.fields import code, file_or_none, once_key, person, said
from quotes.models.books.fields import sum_of_money
from quotes.models.frozen import Frozen, FrozenQuerySet


def pieces() -> models.DecimalField[Decimal, Decimal]:
    """A field for a number of pieces."""
    return models.DecimalField(max_digits=10, decimal_places=3)


class PurchaseOrderQuerySet(FrozenQuerySet["PurchaseOrder"]):
    """Refuses change and deletion in bulk."""


class PurchaseOrder(Frozen):
    """An order to one supplier, as it was sent; its lines may be for several builds.

    `done_at` is when nothing of it was waited for any more: every piece here and good, back or given up.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"pdf", "csv", "done_at"})

    number = models.CharField(max_length=20, unique=True)
    supplier = code()
    supplier_name = models.CharField(max_length=200)
    needed_on = models.DateField(null=True, blank=True)
    sheet = models.JSONField()
    sheet_sha256 = models.CharField(max_length=64)
    ordered_on = models.DateField(db_index=True)
    ordered_at = models.DateTimeField()
    ordered_by = person()
    pdf = file_or_none()
    csv = file_or_none()
    done_at = models.DateTimeField(null=True, blank=True)

    objects = PurchaseOrderQuerySet.as_manager()

    class Meta:
        ordering = ["-ordered_at", "-id"]
        indexes = [
            models.Index(fields=["ordered_at"], condition=Q(done_at=None), name="order_waited_for"),
            models.Index(fields=["supplier_name"], name="order_by_supplier"),
        ]

    def __str__(self) -> str:
        return self.number


class OrderLineQuerySet(FrozenQuerySet["OrderLine"]):
    """Refuses change and deletion in bulk."""


class OrderLine(Frozen):
    """One article of an order. Costs are for one unit, before tax.

    `line_key` is the key of the accepted line that it serves; `reading` what its size was chosen by;
    `replaces` the line in whose place it was ordered. Expected days: even chance, and 9 in 10.
    """

    order = models.ForeignKey(PurchaseOrder, models.PROTECT, related_name="lines")
    position = models.PositiveSmallIntegerField()
    build = models.ForeignKey("Acceptance", models.PROTECT, null=True, blank=True, related_name="ordered")
    component = code(blank=True, default="")
    grade = said(20)
    part_number = models.CharField(max_length=64)
    description = models.CharField(max_length=300)
    size = said(80)
    unit = models.CharField(max_length=60)
    quantity = pieces()
    unit_cost = sum_of_money()
    quoted_unit_cost = models.DecimalField(max_digits=16, decimal_places=3, null=True, blank=True)
    line_key = said(120)
    reading = models.ForeignKey("Measured", models.PROTECT, null=True, blank=True, related_name="+")
    replaces = models.ForeignKey("self", models.PROTECT, null=True, blank=True, related_name="replaced_by")
    expected_on = models.DateField(null=True, blank=True)
    slow_on = models.DateField(null=True, blank=True)

    objects = OrderLineQuerySet.as_manager()

    class Meta:
        ordering = ["order", "position"]
        constraints = [
            models.UniqueConstraint(fields=["order", "position"], name="order_line_position_once"),
            models.CheckConstraint(condition=Q(quantity__gt=0), name="order_line_of_something"),
        ]

    def __str__(self) -> str:
        return self.description


class OrderEventKind(models.TextChoices):
    RECEIVED = "received", _("received, good")
    DAMAGED = "damaged", _("received damaged")
    WRONG = "wrong", _("the wrong part")
    BACK_ORDERED = "back_ordered", _("on back-order")
    RETURNED = "returned", _("returned to the supplier")
    CANCELLED = "cancelled", _("cancelled")


class OrderEventQuerySet(FrozenQuerySet["OrderEvent"]):
    """Refuses change and deletion in bulk."""


class OrderEvent(Frozen):
    """What became of so many pieces of a line, on what day. A slip is put right by a further event."""

    key = once_key()
    line = models.ForeignKey(OrderLine, models.PROTECT, related_name="events")
    kind = models.CharField(max_length=14, choices=OrderEventKind.choices)
    quantity = pieces()
    on = models.DateField()
    promised_on = models.DateField(null=True, blank=True)
    """The new day, where it is on back-order."""
    unit_cost = models.DecimalField(max_digits=16, decimal_places=3, null=True, blank=True)
    """What it turned out to cost, where that is not what was ordered at."""
    batch = said(80)
    note = said()
    at = models.DateTimeField()
    by = person()

    objects = OrderEventQuerySet.as_manager()

    class Meta:
        ordering = ["at", "id"]
        constraints = [models.CheckConstraint(condition=~Q(quantity=0), name="order_event_of_something")]

    def __str__(self) -> str:
        return f"{self.quantity} {self.get_kind_display()}"


class Substitute(Frozen):
    """Another article in the place of one that can't be had; the customer is asked where it matters to him.

    Where `needs_yes`, nothing is ordered before the extra work that asks him is accepted.
    """

    LATER: ClassVar[frozenset[str]] = frozenset({"extra_work", "dropped_at"})

    key = once_key()
    line = models.ForeignKey(OrderLine, models.PROTECT, related_name="substitutes")
    part_number = models.CharField(max_length=64)
    description = models.CharField(max_length=300)
    supplier = code()
    grade = said(20)
    unit_cost = sum_of_money()
    unit_price = sum_of_money()
    """What the customer would pay for one, before tax."""
    expected_on = models.DateField(null=True, blank=True)
    why = models.CharField(max_length=300)
    life_note = said()
    """What it does to the life or the power promised, where it does."""
    needs_yes = models.BooleanField()
    extra_work = models.OneToOneField(
        "ExtraWork", models.PROTECT, null=True, blank=True, related_name="substitute"
    )
    dropped_at = models.DateTimeField(null=True, blank=True)
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[Substitute]] = models.Manager()

    class Meta:
        ordering = ["at", "id"]

    def __str__(self) -> str:
        return self.description


class CoreState(models.TextChoices):
    HERE = "here", _("with us")
    SENT = "sent", _("sent back")
    REFUNDED = "refunded", _("refunded")
    REFUSED = "refused", _("refused")


class Core(models.Model):
    """An old part that the supplier takes back: its deposit, and the day it has to be there."""

    build = models.ForeignKey("Acceptance", models.PROTECT, related_name="cores")
    component = code(blank=True, default="")
    description = models.CharField(max_length=300)
    supplier = code()
    deposit = sum_of_money()
    opened_on = models.DateField()
    due_back_on = models.DateField(db_index=True)
    state = models.CharField(max_length=8, choices=CoreState.choices, default=CoreState.HERE)
    sent_on = models.DateField(null=True, blank=True)
    settled_on = models.DateField(null=True, blank=True)
    note = said()
    changed_by = said(150)

    objects: ClassVar[models.Manager[Core]] = models.Manager()

    class Meta:
        ordering = ["due_back_on", "id"]
        constraints = [models.CheckConstraint(condition=Q(deposit__gte=0), name="core_deposit_not_negative")]

    def __str__(self) -> str:
        return self.description


class OwnPart(Frozen):
    """A part that the customer brought himself: looked at, fitted, and without our warranty."""

    key = once_key()
    build = models.ForeignKey("Acceptance", models.PROTECT, related_name="own_parts")
    component = code()
    description = models.CharField(max_length=300)
    quantity = pieces()
    received_on = models.DateField()
    condition = said()
    fit_to_use = models.BooleanField()
    at = models.DateTimeField()
    by = person()

    objects: ClassVar[models.Manager[OwnPart]] = models.Manager()

    class Meta:
        ordering = ["received_on", "id"]
        constraints = [models.CheckConstraint(condition=Q(quantity__gt=0), name="own_part_of_something")]

    def __str__(self) -> str:
        return self.description
