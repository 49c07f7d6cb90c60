"""What customers owe by how long it has been due, and the interest that the terms ask for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cached_property
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.core.paginator import Paginator
from django.db.models import F, QuerySet
from django.db.models.functions import Coalesce
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path
from django.utils import timezone, translation
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST

from catalogue.calc.said import say
from quotes.actions.books.drafts import start_sale
from quotes.actions.refused import Refused
from quotes.calc.invoice.draft import DraftLine
from quotes.filters.books.overdue import OverdueFilter
from quotes.models import OpenItem
from quotes.queries.books.customer_account import ages
from quotes.queries.books.proposed import interest_proposed
from quotes.queries.books.reminders import last_reminded
from quotes.tables.books.overdue import OverdueTable
from quotes.views.books.listed import BooksList
from quotes.views.every_request.person import signed_in
from quotes.views.table_page import FILES, PER_PAGE

MOST = PER_PAGE
"""So many proposals stand on one page, those longest overdue; who takes the list away gets them all."""


@dataclass(frozen=True, slots=True)
class Interest:
    """What the terms ask for on one document."""

    item: OpenItem
    line: DraftLine
    terms: str

    @property
    def amount(self) -> Decimal:
        return self.line.unit_price * self.line.quantity


def owed() -> QuerySet[Any]:
    """Everything open that customers owe; without a day of payment it is due at once."""
    rows = OpenItem.objects.owed_to_us().select_related("customer", "invoice").defer("invoice__sheet")
    return rows.annotate(late_day=Coalesce(F("due_on"), F("on")))


def interest_of(rows: QuerySet[Any], on: date, most: int | None = MOST) -> list[Interest]:
    """On which of these documents the terms ask for interest; the longest overdue first."""
    late = rows.filter(late_day__lt=on).order_by("late_day", "pk")[:most]
    items = {item.number: item for item in late}
    lines = interest_proposed({item.customer_id for item in items.values()}, on)
    return [
        Interest(item, lines[number].line, lines[number].terms)
        for number, item in items.items()
        if number in lines
    ]


class Overdue(BooksList):
    """Every document that is open, the longest overdue first."""

    title = _("Overdue")
    one, many = _("document"), _("open documents")
    table_class = OverdueTable
    filterset_class = OverdueFilter
    template_name = "quotes/books/overdue.html"
    at = "#listed"

    @cached_property
    def on(self) -> date:
        return timezone.localdate()

    @cached_property
    def interest(self) -> list[Interest]:
        return interest_of(self.object_list, self.on, None if self.request.GET.get("as") in FILES else MOST)

    def rows(self) -> QuerySet[Any]:
        return owed()

    def get_table_kwargs(self) -> dict[str, Any]:
        proposed = {one.item.pk: one.amount for one in self.interest}
        return super().get_table_kwargs() | {"on": self.on, "interest": proposed}

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        context, owed_by = super().get_context_data(**kwargs), ages(self.on)
        customers = Paginator(owed_by.rows, PER_PAGE).get_page(self.request.GET.get("customers"))
        last = last_reminded(row.customer_id for row in customers)
        told = {"on": self.on, "ages": owed_by, "customers": customers, "interest": self.interest}
        return context | told | {"owed": [(row, last.get(row.customer_id)) for row in customers]}


@require_POST
def overdue_interest(request: HttpRequest, pk: int) -> HttpResponse:
    """Puts the interest on one document into a draft, which somebody looks at before it is issued."""
    item = get_object_or_404(owed(), pk=pk)
    with translation.override(item.customer.reads):  # it goes onto an invoice
        found = interest_of(owed().filter(pk=pk), timezone.localdate())
    if not found:
        raise Http404(f"the terms ask for no interest on {item.number}")
    try:
        draft = start_sale(
            customer=item.customer, lines=[found[0].line], by=signed_in(request), now=timezone.now()
        )
    except (Refused, ValidationError) as wrong:
        messages.error(request, str(wrong))
        return redirect("overdue")
    messages.success(
        request, say("The interest on {number} is on a draft. Nothing is asked for yet.", number=item.number)
    )
    return redirect("invoice-draft", draft.pk)


urlpatterns = [
    path("books/overdue/", Overdue.as_view(), name="overdue"),
    path("books/overdue/<int:pk>/interest/", overdue_interest, name="overdue-interest"),
]
