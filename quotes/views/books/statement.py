"""A customer's account over a period, as a page and as the PDF that is sent."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.views.file_answer import shown_pdf
from quotes.calc.books.statement import Statement
from quotes.documents.invoice import statement_pdf
from quotes.forms.books.days import Period
from quotes.models import Customer, Invoice, Payment
from quotes.queries.books.customer_account import statement_of
from quotes.queries.books.statement_paper import statement_paper


def _period(request: HttpRequest) -> Period:
    """A year back, unless other days are asked for."""
    today = timezone.localdate()
    return Period(request.GET, first=date(today.year - 1, today.month, 1), last=today)


@require_safe
def statement(request: HttpRequest, pk: int) -> HttpResponse:
    """What was asked for and paid, with the balance after each."""
    customer = get_object_or_404(Customer, pk=pk)
    form = _period(request)
    account = statement_of(customer, *form.days())
    pages = _pages(customer, account)
    context = {
        "customer": customer,
        "form": form,
        "account": account,
        "credit": -account.closing,
        "lines": [(line, pages.get(line.number, "")) for line in account.lines],
    }
    return render(request, "quotes/books/statement.html", context)


def _pages(customer: Customer, account: Statement) -> dict[str, str]:
    """Where each document of the account is shown, by its number; two queries."""
    numbers = [line.number for line in account.lines]
    found: dict[str, str] = {}
    for name, rows in (("invoice", Invoice.objects), ("payment", Payment.objects)):
        own = rows.filter(customer=customer, number__in=numbers).values_list("number", "pk")
        found |= {number: reverse(name, args=[key]) for number, key in own}
    return found


@require_safe
def statement_file(request: HttpRequest, pk: int) -> HttpResponse:
    """The same on paper."""
    customer = get_object_or_404(Customer, pk=pk)
    content = statement_pdf(statement_paper(customer, *_period(request).days()))
    return shown_pdf(content, f"statement-{customer.pk}.pdf")


urlpatterns = [
    path("books/statements/<int:pk>/", statement, name="statement"),
    path("books/statements/<int:pk>/pdf/", statement_file, name="statement-pdf"),
]
