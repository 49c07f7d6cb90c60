"""A customer: who owns engines and is sent quotes."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from catalogue.calc.search_key import search_key

SEARCHED = 600


def languages() -> list[tuple[str, str]]:
    """The languages that papers can be written in, by code."""
    return list(settings.LANGUAGES)


class CustomerQuerySet(models.QuerySet["Customer"]):
    def found_by(self, text: str) -> CustomerQuerySet:
        """Customers whose name, telephone or email holds every word of `text`, accents and case aside."""
        found = self
        for word in search_key(text).split():
            found = found.filter(search_key__contains=word)
        return found


class Customer(models.Model):
    """A person, a team or another workshop."""

    name = models.CharField(max_length=200)
    address = models.TextField(max_length=400, blank=True, default="")
    telephone = models.CharField(max_length=40, blank=True, default="")
    email = models.EmailField(blank=True, default="")
    tax_registration = models.CharField(max_length=40, blank=True, default="")
    country = models.CharField(max_length=2, blank=True, default="")
    language = models.CharField(max_length=7, choices=languages, blank=True, default="")
    """Of papers and of the page behind the link; empty for the workshop's."""
    search_key = models.CharField(max_length=SEARCHED, editable=False, db_index=True)
    created_at = models.DateTimeField()
    version = models.PositiveIntegerField(default=1)

    objects = CustomerQuerySet.as_manager()

    class Meta:
        ordering = ["name", "id"]
        indexes = [models.Index(fields=["name"], name="customer_by_name")]

    def __str__(self) -> str:
        return self.name

    @property
    def reads(self) -> str:
        """The language that papers for this customer are written in."""
        return self.language or settings.LANGUAGE_CODE

    def make_search_key(self) -> str:
        """Cut off where it is full: folding a letter may make two of it."""
        return search_key(self.name, self.telephone, self.email)[:SEARCHED]
