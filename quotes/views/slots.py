"""The bench week by week, and the owner's terms for booking one."""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.safestring import SafeString, mark_safe
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.actions.booking import save_booking_terms
from quotes.calc.dates.slots import Bench, Week
from quotes.documents.bench_rule import bench_rule, rule_length
from quotes.forms.enquiry_terms import TermsForm
from quotes.queries.bench_diary import diary
from quotes.queries.booking import slot_deposits
from quotes.queries.enquiry import booking_terms
from quotes.queries.slots import JobInHand, jobs_in_hand

SHOWN = 26
"""Half a year on one sheet; further weeks are nearly always empty."""


@dataclass(frozen=True, slots=True)
class WeekRow:
    """One week of the sheet with its drawing and the jobs that begin in it."""

    week: Week
    drawing: SafeString | None
    jobs: tuple[JobInHand, ...]


@require_safe
def slots(request: HttpRequest) -> HttpResponse:
    """Hours there are, promised and free, for half a year."""
    jobs = jobs_in_hand()
    bench = diary(timezone.localdate(), jobs).bench
    shown = bench.weeks[:SHOWN]
    context = {
        "rows": week_rows(bench, jobs),
        "length": rule_length(shown),
        "undated": [job for job in jobs if job.promise.week is None],
        "overdue": [job for job in jobs if job.promise.week and job.promise.week < shown[0].monday],
        "jobs": jobs,
        "beyond": bench.beyond,
    }
    return render(request, "quotes/slots.html", context)


def week_rows(bench: Bench, jobs: tuple[JobInHand, ...], many: int = SHOWN) -> list[WeekRow]:
    """The first weeks, on a rule that all of the sheet share. A closed week has no rule to draw."""
    length = rule_length(bench.weeks[:SHOWN])
    return [
        WeekRow(
            week,
            None if week.closed else mark_safe(bench_rule(week, length)),
            tuple(job for job in jobs if job.promise.week == week.monday),
        )
        for week in bench.weeks[:many]
    ]


def terms(request: HttpRequest) -> HttpResponse:
    """The owner's terms for bookings."""
    types = engine_type_choices()
    deposits = slot_deposits([code for code, _ in types])
    form = TermsForm(booking_terms(), types, deposits, request.POST if request.method == "POST" else None)
    if request.method != "POST":
        return render(request, "quotes/booking_terms.html", {"form": form})
    if not form.is_valid():
        return render(request, "quotes/booking_terms.html", {"form": form}, status=422)
    save_booking_terms(terms=form.value(), deposits=form.deposits())
    messages.success(request, say("The terms are kept. Bookings made from now on follow them."))
    return redirect("booking-terms")


urlpatterns = [
    path("enquiries/slots/", slots, name="slots"),
    path("enquiries/booking-terms/", terms, name="booking-terms"),
]
