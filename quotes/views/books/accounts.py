"""How the books are set up: where money goes, when it is due, and the chart of accounts."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from catalogue.calc.said import say
from catalogue.views.untouched import keeps_theirs
from quotes.actions.books.set_up import keep_books
from quotes.actions.refused import StaleDraft
from quotes.forms.books.refusing import refuse
from quotes.forms.books.settings import AccountsForm, BooksSettingsForm
from quotes.queries.books.chart import accounts_now, books_settings
from quotes.queries.starting_words import starting_words
from quotes.views.books.listed import currency_now
from quotes.views.every_request.form_marks import version_of
from quotes.views.every_request.person import signed_in


@require_http_methods(["GET", "POST"])
def accounts(request: HttpRequest) -> HttpResponse:
    """Shows how the books are set up, or keeps what was typed."""
    row = books_settings()
    data = request.POST if request.method == "POST" else None
    initial = {name: getattr(row, name) for name in BooksSettingsForm.base_fields}
    initial["payment_words"] = starting_words(row.payment_words)
    form = BooksSettingsForm(data, initial=initial, unit=currency_now())
    chart = AccountsForm(accounts_now(), data)
    if data is None:
        return _page(request, form, chart, row.version)
    version = version_of(request, unread=-1)
    if not all([form.is_valid(), chart.is_valid()]):
        return _page(request, form, chart, version)
    try:
        keep_books(
            fields=form.cleaned_data,
            accounts=chart.value(),
            expected_version=version,
            by=signed_in(request),
            now=timezone.now(),
        )
    except StaleDraft as stale:
        return _page(request, form, chart, stale.version, stale)
    except ValidationError as wrong:
        refuse_both(form, chart, wrong)
        return _page(request, form, chart, version)
    messages.success(request, say("How the books are set up is kept."))
    return redirect("accounts")


def refuse_both(form: BooksSettingsForm, chart: AccountsForm, wrong: ValidationError) -> None:
    """A refusal names a setting, or the part of an account."""
    for name, said in wrong.message_dict.items():
        if f"code_{name}" in chart.fields:
            chart.add_error(f"code_{name}", said[0])
        else:
            refuse(form, ValidationError({name: said}))


def _page(
    request: HttpRequest,
    form: BooksSettingsForm,
    chart: AccountsForm,
    version: int,
    stale: StaleDraft | None = None,
) -> HttpResponse:
    context = {"form": form, "chart": chart, "version": version, "stale": stale}
    return render(request, "quotes/books/accounts.html", context)


urlpatterns = [path("books/accounts/", keeps_theirs(accounts), name="accounts")]
