"""A file of customers and engines, kept between its check and its import."""

from __future__ import annotations

from django.db import models

from quotes.models.handed_in import HandedIn


class CustomerFile(HandedIn):
    """What taking it in added."""

    added_customers = models.PositiveIntegerField(default=0)
    added_engines = models.PositiveIntegerField(default=0)
    added_segments = models.PositiveIntegerField(default=0)
