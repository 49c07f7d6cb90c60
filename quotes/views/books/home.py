"""The day sheet of the books: what has to be done about money, in sentences."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes.queries.books.ledger_faults import ledger_faults
from quotes.views.books.home_lines import lines


@require_safe
def books_home(request: HttpRequest) -> HttpResponse:
    """What waits, what must be done today first."""
    on = timezone.localdate()
    return render(request, "quotes/books/home.html", {"on": on, "lines": lines(on)})


@require_safe
def books_agree(request: HttpRequest) -> HttpResponse:
    """Whether the ledger agrees with itself: after many years that takes a while, so it comes by itself."""
    piece = request.headers.get("HX-Request") == "true"
    template = "quotes/books/agree_piece.html" if piece else "quotes/books/agree.html"
    return render(request, template, {"faults": ledger_faults()})


urlpatterns = [
    path("books/", books_home, name="books-home"),
    path("books/agree/", books_agree, name="books-agree"),
]
