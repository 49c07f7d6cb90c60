"""A workbook of the catalogue, kept between its check and the press that takes it in."""

from __future__ import annotations

from django.db import models

from quotes.models.handed_in import HandedIn


class CatalogueFile(HandedIn):
    """What taking it in did to the catalogue, in rows."""

    added = models.PositiveIntegerField(default=0)
    changed = models.PositiveIntegerField(default=0)
    removed = models.PositiveIntegerField(default=0)
