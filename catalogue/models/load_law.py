"""How life falls with load: one entry for each cause of wear that is a load."""

from __future__ import annotations

from django.db import models

from catalogue.models.base import Entry, in_order, name_field, one_of, positive, text_field
from catalogue.models.choices import LoadCause


class LoadLaw(Entry):
    """The power of a load that life falls with; the code is the cause of wear."""

    name = name_field()
    exponent_typical = models.FloatField("power of the load")
    exponent_low = models.FloatField()
    exponent_high = models.FloatField()
    note = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            one_of("load_law", "code", LoadCause),
            positive("load_law", "exponent_low"),
            in_order("load_law", "exponent_low", "exponent_typical", "exponent_high"),
        ]
