"""Payment reminders: the list, making one, its page with its paper, and each time that it was sent."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone, translation
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from quotes.actions.books.reminders import make_reminder, note_sent
from quotes.calc.books.reminder_words import DAYS_TO_PAY, starting_words_of, title_of
from quotes.filters.books.reminders import ReminderFilter
from quotes.forms.books.refusing import refuse
from quotes.forms.books.reminder import ReminderForm, SentForm
from quotes.models import Customer, PaymentReminder
from quotes.models.books.reminder import PaymentReminderQuerySet
from quotes.queries.books.reminders import claimable, claims_of, listed_reminders, open_now, paper_of
from quotes.tables.books.reminders import ReminderTable
from quotes.views.books.listed import BooksList
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served


class ReminderList(BooksList):
    """Every reminder, the newest first."""

    title = _("Reminders")
    one, many = _("payment reminder"), _("payment reminders")
    table_class = ReminderTable
    filterset_class = ReminderFilter
    template_name = "quotes/books/reminders.html"

    def rows(self) -> PaymentReminderQuerySet:
        return listed_reminders()


def new_reminder(request: HttpRequest, pk: int) -> HttpResponse:
    """What is overdue of one customer, all of it picked; a post makes the reminder."""
    customer = get_object_or_404(Customer, pk=pk)
    today = timezone.localdate()
    items = list(claimable(customer, today))
    claims = claims_of(customer, items)
    time = max((claim.time for claim in claims), default=1)
    with translation.override(customer.reads):  # it goes into a letter
        words = starting_words_of(time)
    first = {"pay_by": today + timedelta(days=DAYS_TO_PAY), "words": words}
    form = ReminderForm(request.POST or None, items=items, claims=claims, today=today, initial=first)
    told = {"form": form, "customer": customer, "time": time, "name": title_of(time)}
    if request.method == "POST" and form.is_valid():
        kept = {name: form.cleaned_data[name] for name in ("key", "pay_by", "words")}
        try:
            made = make_reminder(
                customer=customer, items=form.chosen(), by=signed_in(request), now=timezone.now(), **kept
            )
        except ValidationError as wrong:
            refuse(form, wrong)
        else:
            return redirect("reminder", made.pk)
    return render(request, "quotes/books/reminder_new.html", told)


def reminder(request: HttpRequest, pk: int) -> HttpResponse:
    """One reminder: what it claims and what became of it, where it was sent; a post writes that down."""
    row = get_object_or_404(PaymentReminder.objects.select_related("customer", "by"), pk=pk)
    form = SentForm(request.POST or None, today=timezone.localdate(), initial=_first_sending(row))
    if request.method == "POST" and form.is_valid():
        try:
            note_sent(reminder=row, by=signed_in(request), now=timezone.now(), **form.cleaned_data)
        except ValidationError as wrong:
            refuse(form, wrong)
        else:
            return redirect("reminder", pk)
    return render(request, "quotes/books/reminder.html", _told(row) | {"form": form})


def _first_sending(row: PaymentReminder) -> dict[str, Any]:
    address = ", ".join(line.strip() for line in row.customer.address.splitlines() if line.strip())
    return {"on": timezone.localdate(), "to": address or row.customer.email}


def _told(row: PaymentReminder) -> dict[str, Any]:
    paper = paper_of(row)
    now = open_now(row, [claim.number for claim in paper.claims])
    return {
        "reminder": row,
        "paper": paper,
        "name": title_of(paper.time),
        "claims": [(claim, now.get(claim.number), claim.time - 1) for claim in paper.claims],
        "left": sum(item.open_amount for item in now.values()),
        "sendings": list(row.sendings.select_related("by")),
    }


@require_safe
def reminder_pdf(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The letter as it was stored when it was made."""
    row = get_object_or_404(PaymentReminder.objects.select_related("pdf"), pk=pk)
    if row.pdf is None:
        raise Http404(f"the paper of {row.number} was erased")
    return served(request, row.pdf)


urlpatterns = [
    path("books/reminders/", ReminderList.as_view(), name="reminder-list"),
    path("books/reminders/new/<int:pk>/", new_reminder, name="reminder-new"),
    path("books/reminders/<int:pk>/", reminder, name="reminder"),
    path("books/reminders/<int:pk>/reminder.pdf", reminder_pdf, name="reminder-pdf"),
]
