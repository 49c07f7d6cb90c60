"""The record of changes, for the owner: all of it, or the history of one record."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.urls import NoReverseMatch, path, reverse
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from catalogue.calc.said import say
from catalogue.documents.table_files import TableFile
from catalogue.views.file_answer import file_answer
from quotes.filters.changes import ChangeFilter
from quotes.models import AuditEntry
from quotes.queries.record.chained import COLUMNS, head_now, read_told
from quotes.queries.record.history import changes_read, record_types, record_words, saying
from quotes.tables.changes import HEADS, ChangeTable, file_rows
from quotes.views.table_page import FILES, TablePage

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

LINES = "jsonl"
AT_ONCE = 500
GROUP = 8
"""Letters of a hash that are read together."""
PAGES = {
    "quotes.customer": "customer",
    "quotes.engine": "engine",
    "quotes.quote": "quote",
    "quotes.job": "job",
    "quotes.invoice": "invoice",
    "quotes.acceptance": "build-money",
}
"""Where a record has a page of its own."""
WITHOUT_KEY = {"quotes.workshop": "settings", "auth.user": "people"}


class Changes(TablePage):
    """Everything that was changed, the latest first."""

    title: StrOrPromise = _("Record of changes")
    one = pgettext_lazy("in a record", "change")
    many = _("changes")
    table_class = ChangeTable
    filterset_class = ChangeFilter
    template_name = "quotes/changes.html"

    def rows(self) -> QuerySet[AuditEntry]:
        return changes_read()

    def get_table_data(self) -> Any:
        return self.object_list

    def get(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        if request.GET.get("as") == LINES:
            return self._as_lines()  # type: ignore[return-value]
        return super().get(request, *args, **kwargs)

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        head = head_now()
        groups = [head.hash[at : at + GROUP] for at in range(0, len(head.hash), GROUP)] if head else []
        return super().get_context_data(**kwargs) | {"head": head, "hash": " ".join(groups)}

    def taken_away(self, taken_as: str) -> HttpResponse:
        """A row for each field, in the order of the numbers."""
        write, content_type = FILES[taken_as]
        entries = self.filterset.qs.order_by("number")
        file = TableFile(str(self.title), list(map(say, HEADS)), list(file_rows(entries)))
        return file_answer(write(file), f"changes.{taken_as}", content_type)

    def _as_lines(self) -> HttpResponseBase:
        """Each entry as a line of JSON with all that its hashes are made of: others can check them."""
        entries = self.get_filterset(self.get_filterset_class()).qs.order_by("number")
        return StreamingHttpResponse(
            (_line(entry) for entry in entries.iterator(chunk_size=AT_ONCE)),
            content_type="application/jsonl; charset=utf-8",
            headers={"Content-Disposition": 'attachment; filename="changes.jsonl"'},
        )


def _line(entry: AuditEntry) -> str:
    held = {name: getattr(entry, name) for name in COLUMNS} | {"at": entry.at.isoformat()}
    return json.dumps(held | {"told": read_told(entry.words.told)}, ensure_ascii=False) + "\n"


class RecordChanges(Changes):
    """The history of one record, and of what belongs to it."""

    def setup(self, request: HttpRequest, *args: Any, **kwargs: Any) -> None:
        super().setup(request, *args, **kwargs)
        self.record_type, self.record_id = kwargs["record_type"], kwargs["record_id"]
        if self.record_type not in dict(record_types()):
            raise Http404(f"Nothing is told of {self.record_type}.")
        self.title = say("History of {record}", record=record_words(self.record_type))

    def rows(self) -> QuerySet[AuditEntry]:
        return AuditEntry.objects.of_record(self.record_type, self.record_id) & changes_read()

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        own = changes_read().filter(record_type=self.record_type, record_id=self.record_id).first()
        called = saying(own).called if own else ""
        self.title = f"{self.title} {called}".strip()
        return super().get_context_data(**kwargs) | {"record_url": _page_of(self.record_type, self.record_id)}


def _page_of(record_type: str, record_id: str) -> str:
    try:
        if record_type in PAGES:
            return reverse(PAGES[record_type], args=[record_id])
        return reverse(WITHOUT_KEY[record_type]) if record_type in WITHOUT_KEY else ""
    except NoReverseMatch:
        return ""


urlpatterns = [
    path("changes/", Changes.as_view(), name="changes"),
    path("changes/<str:record_type>/<str:record_id>/", RecordChanges.as_view(), name="record-changes"),
]
