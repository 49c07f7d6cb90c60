"""The workshop itself: one row with its name, its money and its rules."""

from __future__ import annotations

from decimal import Decimal

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from quotes.models.tax import TaxCode


class TaxStyle(models.TextChoices):
    SALES_TAX = "sales-tax", _("sales tax: parts taxed, labour by local rule")
    VALUE_ADDED_TAX = "value-added-tax", _("value added tax")


class DistanceUnit(models.TextChoices):
    MILES = "mi", _("miles")
    KILOMETRES = "km", _("kilometres")


class Paper(models.TextChoices):
    A4 = "A4", _("A4")
    LETTER = "Letter", _("Letter")


def per_cent(default: str, most: int = 100, help_text: str = "") -> models.DecimalField[Decimal, Decimal]:
    """A field for a share in per cent, from 0 to `most`."""
    return models.DecimalField(
        max_digits=6,
        decimal_places=2,
        default=Decimal(default),
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(most))],
        help_text=help_text,
    )


def money(default: str, help_text: str = "") -> models.DecimalField[Decimal, Decimal]:
    """A field for a sum in the workshop's currency, not negative."""
    return models.DecimalField(
        max_digits=12,
        decimal_places=2,
        default=Decimal(default),
        validators=[MinValueValidator(Decimal(0))],
        help_text=help_text,
    )


def between(
    default: str, least: str, most: str, digits: int, places: int, help_text: str = ""
) -> models.DecimalField[Decimal, Decimal]:
    """A field for a number within limits."""
    return models.DecimalField(
        max_digits=digits,
        decimal_places=places,
        default=Decimal(default),
        validators=[MinValueValidator(Decimal(least)), MaxValueValidator(Decimal(most))],
        help_text=help_text,
    )


def tax_code() -> models.ForeignKey[TaxCode | None, TaxCode | None]:
    """A field for the tax code that one kind of line takes."""
    return models.ForeignKey(TaxCode, models.PROTECT, null=True, blank=True, related_name="+")


class WorkshopQuerySet(models.QuerySet["Workshop"]):
    def get_or_default(self) -> Workshop:
        """The workshop's row, or an unsaved one with the defaults where nobody has set it up."""
        # There is one row at most, so it is not put in order: that would take a third of the time.
        return next(iter(self.select_related(*Workshop.TAXABILITY)), None) or Workshop()


class Workshop(models.Model):
    """Everything the owner sets for the whole workshop, apart from the lists beside it.

    Defaults are common trade practice without a source unless a field says otherwise.
    """

    ONLY_ID = 1
    TAXABILITY = ("tax_on_labour", "tax_on_parts", "tax_on_machine_work", "tax_on_consumables")

    name = models.CharField(max_length=120, blank=True, default="")
    address = models.TextField(max_length=400, blank=True, default="")
    telephone = models.CharField(max_length=40, blank=True, default="")
    email = models.EmailField(blank=True, default="")
    tax_registration = models.CharField(max_length=40, blank=True, default="")

    currency = models.CharField(max_length=3, default="USD")
    tax_style = models.CharField(max_length=16, choices=TaxStyle.choices, default=TaxStyle.SALES_TAX)
    prices_include_tax_in_talk = models.BooleanField(default=True)
    tax_on_labour = tax_code()
    tax_on_parts = tax_code()
    tax_on_machine_work = models.ForeignKey(
        "TaxCode", models.PROTECT, null=True, blank=True, related_name="+"
    )
    tax_on_consumables = tax_code()

    cap_at_list = models.BooleanField(default=True)
    machine_work_markup_pct = per_cent("15", 200)
    consumables_pct = per_cent("4")
    consumables_least = money("12")
    consumables_most = money("60")
    renew_policy_parts = models.BooleanField(default=False)
    fault_cost = money("1500", "from memory, the owner's to set")

    deposit_pct = per_cent("50")
    quote_validity_days = models.PositiveSmallIntegerField(
        default=30, validators=[MinValueValidator(1), MaxValueValidator(365)]
    )
    limit_without_asking_pct = per_cent("10")
    hours_spread_pct = per_cent("25")
    spoken_below_pct = per_cent("10", 50)
    spoken_above_pct = per_cent("20", 100)
    terms = models.TextField(max_length=20_000, blank=True, default="")
    books_kept_years = models.PositiveSmallIntegerField(
        default=10, validators=[MinValueValidator(1), MaxValueValidator(50)]
    )
    """Common practice, no source: how long tax law has the books kept differs."""
    paper = models.CharField(max_length=6, choices=Paper.choices, default=Paper.LETTER)

    bench_hours_a_day = between("6.5", "0.5", "200", 5, 2, "builder hours that can be sold, a working day")
    sellable_hours_a_week = between(
        "32.5", "0.5", "1000", 6, 2, "about 0.65 of the hours present, from memory"
    )
    calendar_country = models.CharField(max_length=2, blank=True, default="")
    calendar_region = models.CharField(max_length=8, blank=True, default="")
    distance_unit = models.CharField(max_length=2, choices=DistanceUnit.choices, default=DistanceUnit.MILES)

    shop_factor = between("1", "0.1", "10", 5, 3, "scales every hazard to the workshop's own record")
    assembly_fault_chance = between("0.0005", "0", "0.05", 7, 5, "per assembly operation, from memory")
    rider_safety_ceiling = between("0.05", "0.001", "0.5", 5, 4)
    chance_floor = between("0.90", "0.5", "0.999", 4, 3)
    refuses_unsafe = models.BooleanField(default=False)
    session_loss = money("150", "what a lost session costs the customer, from memory")
    weekend_loss = money("800", "what a lost weekend costs him: entry, travel, nights; from memory")

    demo_style = models.CharField(max_length=16, choices=TaxStyle.choices, blank=True, default="")
    version = models.PositiveIntegerField(default=0)
    changed_at = models.DateTimeField(null=True, blank=True)
    changed_by = models.CharField(max_length=150, blank=True, default="")

    objects = WorkshopQuerySet.as_manager()

    class Meta:
        constraints = [models.CheckConstraint(condition=Q(id=1), name="workshop_is_one_row")]

    def __str__(self) -> str:
        return self.name or "The workshop"
