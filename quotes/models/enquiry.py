"""An enquiry: what was asked on the phone and what was said, before the engine is in the shop."""

from __future__ import annotations

from decimal import Decimal

from django.conf import settings
from django.db import models
from django.db.models import Case, Exists, OuterRef, Q, Value, When
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.calc.search_key import search_key
from quotes.models.booking import Booking


class EnquiryState(models.TextChoices):
    OPEN = "open", _("open")
    BOOKED = "booked", _("booked")
    QUOTED = "quoted", _("quoted")
    DROPPED = "dropped", _("dropped")


class EnquiryQuerySet(models.QuerySet["Enquiry"]):
    def joined(self) -> EnquiryQuerySet:
        """With all that a list shows of an enquiry."""
        return self.select_related("customer", "engine", "kept_by", "quote").prefetch_related("bookings")

    def with_state(self) -> EnquiryQuerySet:
        """Each with its `state`: what it has come to furthest."""
        standing = Booking.objects.standing().filter(enquiry=OuterRef("pk"))
        return self.annotate(
            state=Case(
                When(dropped_at__isnull=False, then=Value(EnquiryState.DROPPED.value)),
                When(quote__isnull=False, then=Value(EnquiryState.QUOTED.value)),
                When(Exists(standing), then=Value(EnquiryState.BOOKED.value)),
                default=Value(EnquiryState.OPEN.value),
                output_field=models.CharField(),
            )
        )

    def open(self) -> EnquiryQuerySet:
        """Neither booked, quoted nor dropped: the desk still has to ring back."""
        # By its columns, so that an index finds them.
        standing = Booking.objects.standing().filter(enquiry=OuterRef("pk"))
        return self.filter(~Exists(standing), dropped_at=None, quote=None)

    def in_state(self, state: str) -> EnquiryQuerySet:
        return self.with_state().filter(Q(state=state))

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

    `request` is `quotes.calc.ask.request.Request` as JSON. `said` is
    `quotes.calc.intake.enquiry_card.Said` as JSON: the bands and the slot as they were spoken, which a later
    change of prices does not alter.
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
        indexes = [
            models.Index(
                fields=["kept_at"], condition=Q(dropped_at=None, quote=None), name="enquiry_not_quoted"
            )
        ]
        constraints = [
            models.CheckConstraint(
                condition=Q(budget=None) | Q(budget__gt=0), name="enquiry_budget_positive"
            ),
        ]

    def __str__(self) -> str:
        return self.number

    @property
    def engine_words(self) -> str:
        """The engine as it was said and, where it is known, its number."""
        number = self.engine.number if self.engine else ""
        return ", ".join(filter(None, (self.engine_type, number)))

    @property
    def engine_type(self) -> str:
        return say(str(self.said.get("engine_name", "")))

    @property
    def said_from(self) -> Decimal | None:
        return min(self._said("low"), default=None)

    @property
    def said_to(self) -> Decimal | None:
        return max(self._said("high"), default=None)

    def _said(self, end: str) -> list[Decimal]:
        return [Decimal(option[end]) for option in self.said.get("options", ())]

    @property
    def standing_booking(self) -> Booking | None:
        """The booking that holds a week for it; fetch with `joined()` to save queries."""
        return next((one for one in self.bookings.all() if one.cancelled_at is None), None)

    def make_search_key(self) -> str:
        return search_key(self.number, self.caller)
