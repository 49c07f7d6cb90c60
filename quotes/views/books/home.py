"""The day sheet of the books: what has to be done about money, in sentences."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes.queries.books.ledger import ledger_faults
from quotes.views.books.home_lines import lines


@require_safe
def books_home(request: HttpRequest) -> HttpResponse:
    """What waits, what must be done today first."""
    on = timezone.localdate()
    context = {"on": on, "faults": ledger_faults(), "lines": lines(on)}
    return render(request, "quotes/books/home.html", context)


urlpatterns = [path("books/", books_home, name="books-home")]
