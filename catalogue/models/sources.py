"""Where values come from: the register of published pages, facts of the trade, and its habits."""

from __future__ import annotations

from django.db import models

from catalogue.models.base import Entry, name_field, one_of, text_field
from catalogue.models.choices import Confidence


class Source(Entry):
    """A published page that values rest on, by a plain description of it."""

    title = name_field()
    gives = text_field()

    class Meta(Entry.Meta):
        pass

    def __str__(self) -> str:
        return self.title


class Fact(Entry):
    """A fact of the trade that can be checked."""

    topic = name_field()
    statement = text_field()
    values = models.JSONField(default=dict, blank=True)
    formula = text_field()
    worked_example = text_field()
    confidence = models.CharField(max_length=10, choices=Confidence, blank=True, default="")
    source = text_field()

    class Meta(Entry.Meta):
        constraints = [one_of("fact", "confidence", Confidence)]

    def __str__(self) -> str:
        return self.statement


class Policy(Entry):
    """A habit of the trade on money or time, as data: where a workshop's own settings begin."""

    value = models.JSONField()
    currency = models.CharField(max_length=3)
    """What its sums are in, as they were shipped."""

    class Meta(Entry.Meta):
        verbose_name_plural = "policies"

    def __str__(self) -> str:
        return self.code.replace("_", " ")
