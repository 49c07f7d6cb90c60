"""Fields that many rows of the bench share."""

from __future__ import annotations

import uuid
from decimal import Decimal
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.db import models


def once_key() -> models.UUIDField[uuid.UUID, uuid.UUID]:
    """A key made where the row was entered, so that what is sent twice is kept once."""
    return models.UUIDField(unique=True, default=uuid.uuid4, editable=False)


def code(**options: Any) -> models.CharField[str, str]:
    """A field for a code of the catalogue."""
    return models.CharField(max_length=64, **options)


def said(length: int = 300, **options: Any) -> models.CharField[str, str]:
    """A field for words that may be left out."""
    return models.CharField(max_length=length, blank=True, default="", **options)


def measured() -> models.DecimalField[Decimal | None, Decimal | None]:
    """A field for a measured value, a standard or a limit, where there is one."""
    return models.DecimalField(max_digits=16, decimal_places=6, null=True, blank=True)


def amount_of_use() -> models.DecimalField[Decimal | None, Decimal | None]:
    """A field for an amount of service, where it is known."""
    return models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)


def person() -> models.ForeignKey[User, User]:
    """A field for who did it."""
    return models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")


def file_or_none() -> models.OneToOneField[Any, Any]:
    """A field for a document that is drawn once."""
    return models.OneToOneField("StoredFile", models.PROTECT, null=True, blank=True, related_name="+")
