"""What every entry of the catalogue has, and the constraints that many of them share."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from django.core.validators import RegexValidator
from django.db import models
from django.db.models import F, Q

CODE_CHARACTERS = RegexValidator(
    r"^[A-Za-z0-9_.\-]+\Z", "A code is made of letters, digits, underscores, dots and hyphens."
)


def code_field() -> models.CharField[str, str]:
    """The code of an entry. It never changes: quotes that stand refer to it."""
    return models.CharField(primary_key=True, max_length=64, validators=[CODE_CHARACTERS])


class Entry(models.Model):
    """One thing of the catalogue, known by its code, counted up with every change."""

    code = code_field()
    version = models.PositiveIntegerField(default=1, editable=False)
    search_key = models.CharField(max_length=600, default="", editable=False, db_index=True)
    place = models.PositiveIntegerField(default=0, editable=False)
    """Its place in the shipped order, which is the order in which people think of them."""

    class Meta:
        abstract = True
        ordering = ["place", "code"]

    def __str__(self) -> str:
        return str(getattr(self, "name", self.code))


def name_field() -> models.CharField[str, str]:
    return models.CharField(max_length=200)


def text_field() -> models.TextField[str, str]:
    return models.TextField(blank=True, default="", max_length=2000)


def money_field() -> models.DecimalField[object, object]:
    """A sum in the catalogue's currency, before tax."""
    return models.DecimalField(max_digits=12, decimal_places=2)


def positive(model: str, *fields: str) -> models.CheckConstraint:
    """Every one of the fields is above nought, where it is given."""
    return _each(model, fields, "gt", "above_nought")


def not_negative(model: str, *fields: str) -> models.CheckConstraint:
    """Every one of the fields is nought or more, where it is given."""
    return _each(model, fields, "gte", "not_negative")


def _each(model: str, fields: Sequence[str], test: str, name: str) -> models.CheckConstraint:
    condition = Q()
    for field in fields:
        condition &= Q(**{f"{field}__{test}": 0}) | Q(**{f"{field}__isnull": True})
    return models.CheckConstraint(condition=condition, name=f"{model}_{name}"[:60])


def in_order(model: str, *fields: str) -> models.CheckConstraint:
    """Each field is no less than the one before it; a field that is not given stays out of it."""
    condition = Q()
    for less, more in pairwise(fields):
        condition &= (
            Q(**{f"{less}__lte": F(more)}) | Q(**{f"{less}__isnull": True}) | Q(**{f"{more}__isnull": True})
        )
    return models.CheckConstraint(condition=condition, name=f"{model}_{fields[0]}_in_order"[:60])


def one_of(model: str, field: str, choices: type[models.TextChoices]) -> models.CheckConstraint:
    """The field holds one of the choices."""
    return models.CheckConstraint(
        condition=Q(**{f"{field}__in": choices.values}), name=f"{model}_{field}_known"
    )


def within(model: str, field: str, low: float, high: float) -> models.CheckConstraint:
    """The field lies between the two, both included, where it is given."""
    condition = Q(**{f"{field}__gte": low, f"{field}__lte": high}) | Q(**{f"{field}__isnull": True})
    return models.CheckConstraint(condition=condition, name=f"{model}_{field}_within"[:60])
