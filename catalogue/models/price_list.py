"""Suppliers' price lists: the file that was handed in, what it lists, and every price that ever held.

What a supplier lists is no catalogue part; an offer of one takes its cost from what is listed by its number.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any, ClassVar, Self

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalogue.models.base import not_negative, one_of, positive
from catalogue.models.kept import Kept
from catalogue.models.supplier import Supplier

LONGEST_NUMBER = 100
LONGEST_NAME = 300


def price_field(*, null: bool = False) -> models.DecimalField[Any, Any]:
    """A price for one unit before tax; four places, for a litre out of a drum has them."""
    return models.DecimalField(max_digits=14, decimal_places=4, null=null, blank=null)


class ListState(models.TextChoices):
    HANDED_IN = "handed_in", _("handed in")
    CHECKED = "checked", _("checked")
    DUE = "due", _("due on its day")
    IN_FORCE = "in_force", _("in force")
    UNDONE = "undone", _("undone")
    DROPPED = "dropped", _("dropped")


WAITING = (ListState.HANDED_IN, ListState.CHECKED, ListState.DUE)
"""Nothing of it is in force yet."""


class ListTerms(models.Model):
    """What is known of one supplier's lists. Its row is locked while one of them is checked or taken in."""

    supplier = models.OneToOneField(Supplier, models.CASCADE, primary_key=True, related_name="list_terms")
    currency = models.CharField(max_length=3, blank=True, default="")
    """What the supplier's lists are in; empty is the catalogue's own."""
    jump_percent = models.DecimalField(max_digits=5, decimal_places=1, default=20)
    """A price that moves by more than this waits for the owner's yes."""
    reading = models.JSONField(default=dict, blank=True)
    """How the last file was read, to suggest it for the next."""

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        verbose_name_plural = "list terms"
        constraints = [positive("listterms", "jump_percent")]

    def __str__(self) -> str:
        return f"lists of {self.supplier_id}"


class ExchangeRate(models.Model):
    """What one unit of a currency costs in the catalogue's own from a day on, as the owner set it."""

    currency = models.CharField(max_length=3)
    day = models.DateField()
    rate = models.DecimalField(max_digits=18, decimal_places=8)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    at = models.DateTimeField()

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        ordering = ["currency", "-day"]
        constraints = [
            models.UniqueConstraint(fields=["currency", "day"], name="exchange_rate_once_a_day"),
            positive("exchangerate", "rate"),
        ]

    def __str__(self) -> str:
        return f"{self.currency} from {self.day}"


class PriceListQuerySet(models.QuerySet["PriceList"]):
    def told(self) -> PriceListQuerySet:
        """Without the bytes of the file and all that was found, which a list of lists does not want."""
        return self.defer(*PriceList.LARGE).select_related("supplier")

    def in_force(self) -> PriceListQuerySet:
        """Taken in and not undone, the latest first."""
        return self.filter(state=ListState.IN_FORCE).order_by("-applied_at", "-pk")

    def left_lying(self, before: datetime) -> PriceListQuerySet:
        """Handed in before that moment and never taken in."""
        waiting = (ListState.HANDED_IN, ListState.CHECKED)
        return self.filter(state__in=waiting, handed_in_at__lt=before)


class PriceList(Kept):
    """One file of a supplier, from when it was handed in. Its bytes are kept until the next is in force."""

    LARGE: ClassVar = ("held", "first_lines", "found")

    supplier = models.ForeignKey(Supplier, models.PROTECT, related_name="price_lists")
    sha256 = models.CharField(max_length=64, db_index=True)
    first_lines = models.JSONField(default=dict, blank=True)
    """The first lines of a workbook's sheets, so that choosing columns unpacks it once; while it waits."""
    reading = models.JSONField(default=dict, blank=True)
    """Which sheet, head and columns; empty until somebody has chosen."""
    state = models.CharField(max_length=20, choices=ListState.choices, default=ListState.HANDED_IN)
    whole = models.BooleanField(default=True)
    """Whether it lists all that the supplier has: then what it leaves out is gone."""
    currency = models.CharField(max_length=3, blank=True, default="")
    rate = models.DecimalField(max_digits=18, decimal_places=8, null=True, blank=True)
    """One unit of its currency in the catalogue's own, as it was set for the day it is in force from."""
    in_force_from = models.DateField(null=True, blank=True)
    after = models.ForeignKey("self", models.SET_NULL, null=True, blank=True, related_name="+")
    """The supplier's list that stood when this one was checked."""
    counts = models.JSONField(default=dict, blank=True)
    found = models.JSONField(default=dict, blank=True)
    """What was shown of it: largest changes, gone, offers, quotes and builds that it moves."""
    handed_in_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    handed_in_at = models.DateTimeField()
    checked_at = models.DateTimeField(null=True, blank=True)
    applied_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    applied_at = models.DateTimeField(null=True, blank=True)
    undone_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    undone_at = models.DateTimeField(null=True, blank=True)

    objects = PriceListQuerySet.as_manager()

    class Meta(Kept.Meta):
        ordering = ["-handed_in_at", "-id"]
        constraints = [
            one_of("pricelist", "state", ListState),
            positive("pricelist", "rate"),
            models.CheckConstraint(
                condition=Q(state__in=["handed_in", "checked", "dropped"])
                | Q(applied_at__isnull=False, in_force_from__isnull=False),
                name="pricelist_applied_from_a_day",
            ),
        ]

    @property
    def since(self) -> datetime:
        return self.handed_in_at

    @classmethod
    def to_be_had(cls) -> models.QuerySet[Self]:
        let_go = Q(held=b"", place="") & ~Q(state__in=WAITING)
        return models.QuerySet(cls).exclude(let_go)


class Terms(models.Model):
    """What a list says of one article."""

    number = models.CharField(max_length=LONGEST_NUMBER)
    number_key = models.CharField(max_length=LONGEST_NUMBER)
    """The number as numbers are told apart."""
    name = models.CharField(max_length=LONGEST_NAME, blank=True, default="")
    gtin = models.CharField(max_length=14, blank=True, default="")
    unit = models.CharField(max_length=40, blank=True, default="")
    pack = models.PositiveIntegerField(default=1)
    currency = models.CharField(max_length=3)
    cost = price_field()
    """For one unit, in the list's currency."""
    list_price = price_field(null=True)
    own_cost = price_field()
    """The same in the catalogue's currency, at the rate of the list."""
    own_list_price = price_field(null=True)
    lead_days = models.PositiveSmallIntegerField(null=True, blank=True)
    superseded_by = models.CharField(max_length=LONGEST_NUMBER, blank=True, default="")
    """The number that took this one's place."""
    gone = models.BooleanField(default=False)
    """The supplier's last whole list left it out."""

    class Meta:
        abstract = True


class ListedPart(Terms):
    """An article as the supplier lists it now. There are hundreds of thousands."""

    supplier = models.ForeignKey(Supplier, models.PROTECT, related_name="listed_parts", db_index=False)
    search_key = models.CharField(max_length=600, default="", editable=False)
    price_list = models.ForeignKey(PriceList, models.PROTECT, related_name="listed_parts")
    """The list that said so."""

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        ordering = ["supplier", "number_key"]
        constraints = [
            models.UniqueConstraint(fields=["supplier", "number_key"], name="listed_part_once_a_supplier"),
            not_negative("listedpart", "cost", "list_price", "own_cost", "own_list_price"),
            positive("listedpart", "pack"),
        ]
        indexes = [
            models.Index(fields=["number_key"], name="listed_part_number"),
            models.Index(fields=["search_key"], name="listed_part_found"),
        ]

    def __str__(self) -> str:
        return self.number


class ListedPrice(Terms):
    """What one list said of one article: the history, and what undoing the next list goes back to."""

    price_list = models.ForeignKey(PriceList, models.PROTECT, related_name="prices")

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        ordering = ["number_key", "-price_list_id"]
        constraints = [
            models.UniqueConstraint(fields=["number_key", "price_list"], name="listed_price_once_a_list"),
        ]

    def __str__(self) -> str:
        return f"{self.number} in list {self.price_list_id}"


class HeldPrice(models.Model):
    """A price that jumps by more than the supplier's share; without the owner's yes it is left as it is."""

    price_list = models.ForeignKey(PriceList, models.CASCADE, related_name="held_prices")
    number_key = models.CharField(max_length=LONGEST_NUMBER)
    number = models.CharField(max_length=LONGEST_NUMBER)
    name = models.CharField(max_length=LONGEST_NAME, blank=True, default="")
    line = models.PositiveIntegerField()
    was = price_field()
    becomes = price_field()
    """Both in the catalogue's currency."""
    yes_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+")
    yes_at = models.DateTimeField(null=True, blank=True)

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    class Meta:
        ordering = ["line"]
        constraints = [
            models.UniqueConstraint(fields=["price_list", "number_key"], name="held_price_once_a_list"),
        ]

    def __str__(self) -> str:
        return f"{self.number} in list {self.price_list_id}"
