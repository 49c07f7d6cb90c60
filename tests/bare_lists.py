"""The lists as a bare Django view would show them: the same rows by the same queries, in a plain table.

What the site's own take beside these is the narrowing form, the sorting heads, the links that follow rights
and the words in two languages.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from django.contrib.auth.decorators import login_not_required
from django.core.paginator import Paginator
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.urls import path
from django.utils import timezone
from django.utils.functional import cached_property

from catalogue.queries import engine_type_choices
from quotes import urls
from quotes.models import Customer, InvoiceDraft, JournalEntry, Payment, Quote, Workshop
from quotes.queries.books.invoice_list import listed_documents
from quotes.queries.books.payment_list import listed_payments
from quotes.queries.people import roles_of
from quotes.views.record_lists import CustomerList
from quotes.views.table_page import PER_PAGE

TABLE = """<!doctype html><html lang="en"><head><title>{{ title }}</title></head><body><h1>{{ title }}</h1>
<p>{{ shop.name }}, {{ roles|length }}, {{ page.paginator.count }}</p><table>
{% for cells in rows %}<tr>{% for cell in cells %}<td>{{ cell }}</td>{% endfor %}</tr>
{% endfor %}</table><p>{{ page.number }} of {{ page.paginator.num_pages }}</p></body></html>"""

Rows = Callable[[], QuerySet[Any]]


def _quotes() -> QuerySet[Any]:
    return Quote.objects.listed(timezone.localdate()).order_by("-created_at", "-pk")


def _invoices() -> QuerySet[Any]:
    latest_first = ("-dated", "-pk")  # of which the type checker knows one
    return listed_documents(timezone.localdate()).order_by(*latest_first)


LISTS: dict[str, tuple[Rows, Rows, Sequence[str]]] = {
    "quotes": (
        _quotes,
        Quote.objects.all,
        [
            "title",
            "state",
            "customer",
            "engine",
            "engine.type_code",
            "latest.index",
            "latest.gross_from",
            "latest.gross_to",
            "acceptance.gross",
            "latest.valid_until",
            "created_at",
        ],
    ),
    "customers": (
        lambda: CustomerList().rows().order_by("name", "-pk"),
        Customer.objects.all,
        ["name", "telephone", "email", "engines_kept", "quotes_kept"],
    ),
    "invoices": (
        _invoices,
        lambda: InvoiceDraft.objects.filter(dropped_at=None),
        [
            "place",
            "invoice.number",
            "kind",
            "customer",
            "build.quote.number",
            "invoice.issued_on",
            "invoice.due_on",
            "invoice.gross",
            "invoice.due",
            "invoice.item.open_amount",
        ],
    ),
    "payments": (
        lambda: listed_payments().order_by("-on", "-pk"),
        Payment.objects.all,
        ["number", "on", "customer", "build", "kind", "method", "reference", "amount", "open_amount"],
    ),
    "journal": (
        lambda: JournalEntry.objects.select_related("write_off", "batch").order_by("-on", "-pk"),
        JournalEntry.objects.all,
        ["on", "number", "source", "party", "text", "total", "batch"],
    ),
}
"""Rows with their joins, the same to be counted, and what is shown of each."""


class _Counted(Paginator[Any]):
    """Counts without the joins, as the site does."""

    counted: QuerySet[Any]

    @cached_property
    def count(self) -> int:
        return self.counted.count()


@login_not_required
def bare(request: HttpRequest, name: str) -> HttpResponse:
    """The first page of a list."""
    rows, counted, shown = LISTS[name]
    pages = _Counted(rows(), PER_PAGE)
    pages.counted = counted()
    page = pages.page(1)
    # The site chooses a page's rows by their keys; so does this, for the queries are to be the same.
    found = rows().filter(pk__in=rows().values("pk")[:PER_PAGE])
    context = {
        "title": name,
        "page": page,
        "shop": Workshop.objects.get_or_default(),
        "roles": roles_of(request.user),
        "types": engine_type_choices(),
        "rows": [[_cell(row, way) for way in shown] for row in found],
    }
    return HttpResponse(_template().render(context, request))


def _cell(row: Any, way: str) -> Any:
    value = row
    for step in way.split("."):
        value = getattr(value, step, None)
        if value is None:
            return ""
    return value


def _template() -> Any:
    if not hasattr(_template, "made"):
        _template.made = engines["django"].from_string(TABLE)  # type: ignore[attr-defined]
    return _template.made  # type: ignore[attr-defined]


urlpatterns = [path("bare/<str:name>/", bare), *urls.urlpatterns]
