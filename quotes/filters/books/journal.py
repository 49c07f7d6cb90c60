"""Narrowing the journal: by days, where an entry comes from, account, build, words."""

from __future__ import annotations

from typing import Any

import django_filters
from django.db.models import Exists, OuterRef
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.filters.books.fields import DayFilter, WordsFilter, in_any
from quotes.models import JournalEntry, JournalLine, JournalSource
from quotes.models.books.journal import JournalEntryQuerySet
from quotes.queries.books.accounts_used import accounts_used


def _accounts() -> list[tuple[str, str]]:
    return [(code, f"{code} {say(name)}") for code, name in accounts_used()]


class JournalFilter(django_filters.FilterSet):
    """Every word must stand in the document's number, the party or the text."""

    q = WordsFilter(_("Find by document, customer, supplier or text"), method="with_words")
    first = DayFilter(label=_("From"), field_name="on", lookup_expr="gte")
    last = DayFilter(label=_("To"), field_name="on", lookup_expr="lte")
    source = django_filters.ChoiceFilter(
        label=_("Comes from"), choices=JournalSource.choices, empty_label=_("all")
    )
    account = django_filters.ChoiceFilter(
        label=_("Account"), choices=_accounts, empty_label=_("all"), method="on_account"
    )
    build = WordsFilter(_("Build, by its quote"), method="of_build")
    exported = django_filters.ChoiceFilter(
        label=_("Exported"),
        choices=(("no", _("not yet")), ("yes", _("in a batch"))),
        empty_label=_("all"),
        method="is_exported",
    )
    batch = WordsFilter(_("Batch, by its number"), field_name="batch__number", lookup_expr="iexact")

    class Meta:
        model = JournalEntry
        fields: list[str] = []

    def with_words(self, found: JournalEntryQuerySet, name: str, value: Any) -> Any:
        return in_any(found, ("number", "party", "text"), value)

    def on_account(self, found: JournalEntryQuerySet, name: str, value: Any) -> Any:
        return found.filter(_has_line(account=value))

    def of_build(self, found: JournalEntryQuerySet, name: str, value: Any) -> Any:
        return found.filter(_has_line(build__quote__number__iexact=value.strip()))

    def is_exported(self, found: JournalEntryQuerySet, name: str, value: Any) -> Any:
        return found.not_exported() if value == "no" else found.exclude(batch=None)


def _has_line(**wanted: Any) -> Exists:
    return Exists(JournalLine.objects.filter(entry=OuterRef("pk"), **wanted))
