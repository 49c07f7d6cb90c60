"""The journal: its entries, one of them, and what every account comes to."""

from __future__ import annotations

from decimal import Decimal

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.documents.table_files import TableFile
from catalogue.views.file_answer import file_answer
from quotes.filters.books.journal import JournalFilter
from quotes.forms.books.days import OneDay
from quotes.models import JournalEntry
from quotes.models.books.journal import JournalEntryQuerySet
from quotes.queries.books.balances import TrialBalance, trial_balance
from quotes.queries.books.tax_written_off import tax_in_write_offs
from quotes.tables.books.documents import document_url
from quotes.tables.books.journal import JournalTable
from quotes.views.books.listed import BooksList
from quotes.views.table_page import FILES


class Journal(BooksList):
    """Every entry, the newest first."""

    title = _("Journal")
    one, many = _("entry"), _("entries")
    table_class = JournalTable
    filterset_class = JournalFilter
    template_name = "quotes/books/journal.html"

    def rows(self) -> JournalEntryQuerySet:
        return JournalEntry.objects.select_related("write_off", "batch")


@require_safe
def journal_entry(request: HttpRequest, pk: int) -> HttpResponse:
    """One entry with its lines and the document that it comes from."""
    rows = JournalEntry.objects.select_related("write_off", "batch")
    entry = get_object_or_404(rows, pk=pk)
    lines = list(entry.lines.select_related("build__quote"))
    given_up = tax_in_write_offs({entry.write_off_id} if entry.write_off_id else set())
    context = {
        "entry": entry,
        "given_up": list(given_up.values()),
        "is_write_off": entry.write_off_id is not None,
        "lines": lines,
        "document": document_url(entry),
        "debits": sum((line.debit for line in lines), Decimal(0)),
        "credits": sum((line.credit for line in lines), Decimal(0)),
    }
    return render(request, "quotes/books/journal_entry.html", context)


@require_safe
def trial(request: HttpRequest) -> HttpResponse:
    """Debits, credits and balance of every account up to a day."""
    form = OneDay(request.GET, today=timezone.localdate())
    on = form.day()
    balance = trial_balance(on)
    if (taken_as := request.GET.get("as", "")) in FILES:
        return _taken_away(balance, taken_as)
    context = {"form": form, "on": on, "balance": balance}
    return render(request, "quotes/books/trial_balance.html", context)


def _taken_away(balance: TrialBalance, taken_as: str) -> HttpResponse:
    """The same rows as a file, with the total that must be nought."""
    rows: list[list[str | Decimal]] = [
        [row.code, row.name, row.debit, row.credit, row.balance] for row in balance.rows
    ]
    rows.append(["", say("Together"), balance.debits, balance.credits, balance.difference])
    heads = [say("Account"), say("Name"), say("Debits"), say("Credits"), say("Balance")]
    write, content_type = FILES[taken_as]
    name = f"trial-balance-{balance.on}.{taken_as}"
    return file_answer(write(TableFile(say("Trial balance"), heads, rows)), name, content_type)


urlpatterns = [
    path("books/journal/", Journal.as_view(), name="journal"),
    path("books/journal/<int:pk>/", journal_entry, name="journal-entry"),
    path("books/trial-balance/", trial, name="trial-balance"),
]
