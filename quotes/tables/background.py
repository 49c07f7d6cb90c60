"""Work in the background as a list."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.utils.html import format_html
from django.utils.translation import gettext_lazy as _

from catalogue.tables.columns import ChoiceColumn, TextColumn
from catalogue.tables.tables import EntryTable
from quotes.models import BackgroundWork
from quotes.queries.people import name_of
from quotes.tables.change_words import moment


class BackgroundTable(EntryTable):
    """A row for each work; its name leads to where its result is seen."""

    about = TextColumn(_("Work"), "name")
    state = ChoiceColumn(_("State"))
    asked_by = TextColumn(_("For whom"), order_by=("asked_by__username",))
    asked_at = TextColumn(_("Asked for"), "nowrap")
    ended_at = TextColumn(_("Ended"), "nowrap")
    failed_because = TextColumn(_("Why it failed"))

    class Meta:
        order_by = "-asked_at"

    def render_about(self, value: str, record: BackgroundWork) -> str:
        return format_html('<a href="{}">{}</a>', record.page, value) if record.page else value

    def value_about(self, value: str) -> str:
        return value

    def render_asked_by(self, value: User) -> str:
        return name_of(value)

    value_asked_by = render_asked_by

    def render_asked_at(self, value: datetime) -> str:
        return moment(value)

    render_ended_at = value_asked_at = value_ended_at = render_asked_at
