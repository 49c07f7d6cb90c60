"""A booking: the week kept on the bench for one engine, and on what terms."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import to_say
from quotes.models.engine import Delivered


class Authority(models.TextChoices):
    RIDER = "rider", _("the rider")
    TEAM = "team", _("the team")
    PAYER = "payer", _("who pays")


class SaidHow(models.TextChoices):
    SIGNATURE = "signature", _("by signature")
    MESSAGE = "message", _("by written message")
    TELEPHONE = "telephone", _("by telephone, written down by us")


class OldParts(models.TextChoices):
    RETURNED = "returned", _("go back to the customer with the engine")
    KEPT = "kept", _("are kept until the engine is fetched, then disposed of")
    SCRAPPED = "scrapped", _("are disposed of at once")


class BookingQuerySet(models.QuerySet["Booking"]):
    def standing(self) -> BookingQuerySet:
        return self.filter(cancelled_at=None)

    def in_hand(self) -> BookingQuerySet:
        """Standing, and neither answered by a yes, whose hours count instead, nor by a no."""
        return self.standing().filter(
            Q(enquiry__quote=None) | Q(enquiry__quote__accepted_at=None),
            enquiry__quote__declined_at=None,
            enquiry__quote__closed_at=None,
        )

    def joined(self) -> BookingQuerySet:
        return self.select_related("enquiry__customer", "enquiry__engine", "enquiry__quote", "booked_by")


class Booking(models.Model):
    """`hours` are bench hours of the option booked; `slot_week` is the Monday of the week it begins in.

    `sheet` is `quotes.calc.intake.booking_sheet.BookingSheet` as JSON: the confirmation as it was given.
    """

    number = models.CharField(max_length=20, unique=True)
    enquiry = models.ForeignKey("Enquiry", models.PROTECT, related_name="bookings")
    tier = models.CharField(max_length=64)
    tier_name = models.CharField(max_length=120)
    hours = models.DecimalField(max_digits=8, decimal_places=2)
    slot_week = models.DateField(db_index=True)
    arrive_by = models.DateField()
    delivered = models.CharField(max_length=10, choices=Delivered.choices)
    deposit = models.DecimalField(max_digits=12, decimal_places=2)
    authority = models.CharField(max_length=8, choices=Authority.choices)
    authority_name = models.CharField(max_length=200)
    said_how = models.CharField(max_length=10, choices=SaidHow.choices)
    limit_sum = models.DecimalField(max_digits=12, decimal_places=2)
    old_parts = models.CharField(max_length=10, choices=OldParts.choices)
    sheet = models.JSONField()
    terms_agreed_on = models.DateField(null=True, blank=True)
    terms_agreed_by = models.CharField(max_length=200, blank=True, default="")
    booked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    booked_at = models.DateTimeField()
    cancelled_at = models.DateTimeField(null=True, blank=True)
    cancelled_by = models.CharField(max_length=150, blank=True, default="")
    cancelled_because = models.CharField(max_length=300, blank=True, default="")

    objects = BookingQuerySet.as_manager()

    class Meta:
        ordering = ["booked_at", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["enquiry"], condition=Q(cancelled_at=None), name="booking_stands_once_an_enquiry"
            ),
            models.CheckConstraint(condition=Q(hours__gt=0), name="booking_has_hours"),
            models.CheckConstraint(
                condition=Q(deposit__gte=0, limit_sum__gte=0), name="booking_sums_not_negative"
            ),
            models.CheckConstraint(
                condition=Q(terms_agreed_on=None, terms_agreed_by="")
                | (Q(terms_agreed_on__isnull=False) & ~Q(terms_agreed_by="")),
                name="booking_terms_agreed_by_somebody",
            ),
        ]

    def __str__(self) -> str:
        return self.number


class BookingTerms(models.Model):
    """What the owner sets for bookings: one row. Defaults are common practice, no source."""

    ONLY_ID = 1
    STORAGE = to_say("Goods that nobody collects are sold only by the procedure of local law.")
    BRING = to_say(
        "Engine number\nKey, where the engine comes in the chassis\nLogbook of hours or distance\nSpare shims"
    )

    spoken_round_to = models.DecimalField(
        max_digits=8,
        decimal_places=2,
        default=Decimal(100),
        validators=[MinValueValidator(Decimal("0.01")), MaxValueValidator(Decimal(10_000))],
    )
    storage_free_days = models.PositiveSmallIntegerField(default=14, validators=[MaxValueValidator(365)])
    storage_a_day = models.DecimalField(
        max_digits=8, decimal_places=2, default=Decimal(10), validators=[MinValueValidator(Decimal(0))]
    )
    storage = models.TextField(max_length=2000, default=STORAGE)
    bring = models.TextField(max_length=2000, default=BRING)
    kept_inside_days = models.PositiveSmallIntegerField(default=30, validators=[MaxValueValidator(365)])

    objects: ClassVar[models.Manager[BookingTerms]] = models.Manager()

    class Meta:
        constraints = [models.CheckConstraint(condition=Q(id=1), name="booking_terms_is_one_row")]

    def __str__(self) -> str:
        return "Booking terms"


class SlotDeposit(models.Model):
    """What holds a week on the bench for one engine type, in the workshop's currency."""

    type_code = models.CharField(max_length=64, unique=True)
    amount = models.DecimalField(max_digits=12, decimal_places=2, validators=[MinValueValidator(Decimal(0))])

    objects: ClassVar[models.Manager[SlotDeposit]] = models.Manager()

    class Meta:
        ordering = ["type_code"]
        constraints = [models.CheckConstraint(condition=Q(amount__gte=0), name="slot_deposit_not_negative")]

    def __str__(self) -> str:
        return f"{self.type_code}: {self.amount}"
