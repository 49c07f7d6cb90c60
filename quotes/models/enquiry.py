"""An enquiry: what was asked on the phone and what was said, before the engine is in the shop."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Exists, OuterRef, Q

from quotes.calc.search_key import search_key
from quotes.models.booking import Booking


class EnquiryQuerySet(models.QuerySet["Enquiry"]):
    def joined(self) -> EnquiryQuerySet:
        """With all that a list shows of an enquiry."""
        return self.select_related("customer", "engine", "kept_by", "quote").prefetch_related("bookings")

    def open(self) -> EnquiryQuerySet:
        """Neither booked, quoted nor dropped: the desk still has to ring back."""
        standing = Booking.objects.standing().filter(enquiry=OuterRef("pk"))
        return self.filter(~Exists(standing), dropped_at=None, quote=None)

    def found_by(self, text: str) -> EnquiryQuerySet:
        """Enquiries whose number, caller, customer or engine number holds every word of `text`."""
        found = self
        for word in search_key(text).split():
            found = found.filter(
                Q(search_key__contains=word)
                | Q(customer__search_key__contains=word)
                | Q(engine__search_key__contains=word)
            )
        return found


class Enquiry(models.Model):
    """The card of a call.

    `request` is `quotes.calc.request.Request` as JSON. `said` is `quotes.calc.enquiry_card.Said` as JSON: the
    bands and the slot as they were spoken, which a later change of prices does not alter.
    """

    number = models.CharField(max_length=20, unique=True)
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="enquiries")
    engine = models.ForeignKey("Engine", models.PROTECT, null=True, blank=True, related_name="enquiries")
    request = models.JSONField()
    said = models.JSONField()
    caller = models.CharField(max_length=200, blank=True, default="")
    needed_on = models.DateField(null=True, blank=True)
    budget = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)
    who_pays = models.CharField(max_length=200, blank=True, default="")
    symptoms = models.TextField(max_length=2000, blank=True, default="")
    fuel = models.CharField(max_length=80, blank=True, default="")
    class_rules = models.CharField(max_length=200, blank=True, default="")
    note = models.TextField(max_length=2000, blank=True, default="")
    search_key = models.CharField(max_length=300, editable=False, blank=True, default="", db_index=True)
    kept_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    kept_at = models.DateTimeField(db_index=True)
    quote = models.OneToOneField("Quote", models.PROTECT, null=True, blank=True, related_name="enquiry")
    dropped_at = models.DateTimeField(null=True, blank=True)
    dropped_because = models.CharField(max_length=300, blank=True, default="")
    version = models.PositiveIntegerField(default=1)

    objects = EnquiryQuerySet.as_manager()

    class Meta:
        ordering = ["-kept_at", "-id"]
        verbose_name_plural = "enquiries"
        constraints = [
            models.CheckConstraint(
                condition=Q(budget=None) | Q(budget__gt=0), name="enquiry_budget_positive"
            ),
        ]

    def __str__(self) -> str:
        return self.number

    def make_search_key(self) -> str:
        return search_key(self.number, self.caller)
