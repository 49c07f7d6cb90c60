"""Narrowing the list of payment reminders: by words, whether they were sent, days."""

from __future__ import annotations

from typing import Any

import django_filters
from django.utils.translation import gettext_lazy as _

from quotes.filters.books.fields import DayFilter, WordsFilter, in_any
from quotes.models import PaymentReminder
from quotes.models.books.reminder import PaymentReminderQuerySet

STATES = (("sent", _("sent")), ("not_sent", _("not sent yet")))


class ReminderFilter(django_filters.FilterSet):
    """Every word must stand in the reminder's number or the customer's name."""

    q = WordsFilter(_("Find by customer or number"), method="with_words")
    state = django_filters.ChoiceFilter(
        label=_("State"), choices=STATES, empty_label=_("all"), method="in_state"
    )
    first = DayFilter(label=_("From"), field_name="on", lookup_expr="gte")
    last = DayFilter(label=_("To"), field_name="on", lookup_expr="lte")

    class Meta:
        model = PaymentReminder
        fields: list[str] = []

    def with_words(self, found: PaymentReminderQuerySet, name: str, value: Any) -> Any:
        return in_any(found, ("number", "customer__name"), value)

    def in_state(self, found: PaymentReminderQuerySet, name: str, value: str) -> Any:
        return found.filter(sendings=None) if value == "not_sent" else found.exclude(sendings=None)
