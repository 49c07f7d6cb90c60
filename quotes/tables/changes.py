"""The record of changes as a table, and as the rows of a file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

import django_tables2 as tables
from django.http import HttpRequest
from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from catalogue.calc.said import say, to_say
from catalogue.documents.table_files import Cell
from catalogue.tables.columns import NumberColumn, cells
from catalogue.tables.tables import EntryTable
from quotes.models import AuditEntry
from quotes.queries.record.history import record_words
from quotes.tables.change_words import NOTHING, ChangeWords, FieldChange, moment

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

AT_FIRST = 6
"""Fields shown at once; what a new record holds beyond them is folded away."""
HEADS = (
    to_say("No."),
    to_say("At"),
    to_say("By"),
    to_say("What was done"),
    to_say("Record"),
    to_say("Called"),
    to_say("Key"),
    to_say("Field"),
    to_say("Before"),
    to_say("After"),
    to_say("Hash"),
)


class WordsColumn(tables.Column):
    """Words that the table makes of the whole entry."""

    empty_values = ()

    def __init__(self, label: StrOrPromise, classes: str = "") -> None:
        super().__init__(verbose_name=label, accessor="number", orderable=False, attrs=cells(classes, label))


class ChangeTable(EntryTable):
    what = WordsColumn(pgettext_lazy("change", "Record"), "name")
    at = tables.Column(_("When"), orderable=False, attrs=cells("nowrap", _("When")))
    by = WordsColumn(_("Who"))
    changes = WordsColumn(_("Before and after"), "told-all")
    number = NumberColumn(_("No."), orderable=False)

    def before_render(self, request: HttpRequest) -> None:
        self.words = ChangeWords([row.record for row in self.paginated_rows])

    def render_at(self, value: Any) -> str:
        return moment(value)

    def render_by(self, record: AuditEntry) -> str:
        return self.words.said(record).by or say("erased")

    def render_what(self, record: AuditEntry) -> SafeString:
        called = self.words.said(record).called
        if not record.record_id:
            return format_html("{} {}", _titled(record, called), record.get_action_display())
        return format_html(
            '<a href="{}">{}</a> {}',
            reverse("record-changes", args=[record.record_type, record.record_id]),
            _titled(record, called),
            record.get_action_display(),
        )

    def render_changes(self, record: AuditEntry) -> SafeString:
        fields = self.words.fields(record)
        first, rest = fields[:AT_FIRST], fields[AT_FIRST:]
        if not rest:
            return _lines(first)
        more = say("{count} more", count=len(rest))
        fold = "{}<details><summary>{}</summary>{}</details>"
        return format_html(fold, _lines(first), more, _lines(rest))


def _titled(record: AuditEntry, called: str) -> str:
    words = record_words(record.record_type)
    return f"{words[:1].upper()}{words[1:]} {called}".strip()


def _lines(fields: Iterable[FieldChange]) -> SafeString:
    return format_html_join("", "<p>{}: {}</p>", ((one.label, _change(one)) for one in fields))


def _change(one: FieldChange) -> SafeString:
    if one.was == say(NOTHING):
        return format_html("<b>{}</b>", one.became)
    return format_html("{} <span>{}</span> <b>{}</b>", one.was, say("became"), one.became)


def file_rows(entries: Iterable[AuditEntry]) -> Iterator[list[Cell]]:
    """A row for each field of each entry, before and after in words."""
    some = list(entries)
    words = ChangeWords(some)
    for entry in some:
        said = words.said(entry)
        head: list[Cell] = [entry.number, entry.at.isoformat(), said.by, entry.action]
        head += [record_words(entry.record_type), said.called, entry.record_id]
        for one in words.fields(entry) or [FieldChange("", "", "", "")]:
            yield [*head, one.label, one.was, one.became, entry.hash]
