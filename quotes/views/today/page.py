"""Today: what each person has to do."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.queries import engine_type_choices
from quotes.actions.quotes import mark_done
from quotes.actions.refused import Refused
from quotes.models import Acceptance, Job
from quotes.queries import today
from quotes.queries.bench.jobs import jobs_today
from quotes.queries.bench_diary import diary
from quotes.queries.people import roles_of
from quotes.queries.slots import jobs_in_hand
from quotes.views.books.home_lines import lines
from quotes.views.slots import week_rows
from quotes.views.today import bench as today_bench
from quotes.views.today import first_steps
from quotes.views.today import items as today_items
from quotes.views.today import money as today_money
from quotes.views.today import parts as today_parts

WEEKS = 6
"""So many weeks of the bench stand on the day sheet; the slots show half a year."""


def home(request: HttpRequest) -> HttpResponse:
    """The day sheet, with the parts that this person's roles have to do with."""
    on = timezone.localdate()
    roles = roles_of(request.user)
    types = dict(engine_type_choices())
    context: dict[str, Any] = {"on": on}
    if "owner" in roles:
        context |= first_steps.panel(request)
    engines = jobs_today(on) if roles & {"desk", "builder", "owner"} else []
    if roles & {"desk", "owner"}:
        context |= _desk(on, types, engines, owner="owner" in roles)
    if roles & {"builder", "owner"}:
        context["at_the_bench"] = today_bench.for_builder(engines, types)
        context["builds"] = [
            (yes, today_items.engine_words(yes.quote.engine, types)) for yes in today.builds_in_hand()
        ]
    if roles & {"desk", "builder", "owner"}:
        jobs = jobs_in_hand()
        context["weeks"] = week_rows(diary(on, jobs).bench, jobs)[:WEEKS]
    if roles & {"books", "owner"}:
        context |= _books()
        context["money"] = lines(on, builds="desk" not in roles and "owner" not in roles)
    return render(request, "quotes/home.html", context)


def _desk(on: date, types: today_items.Types, engines: list[Job], *, owner: bool) -> dict[str, Any]:
    more = [*today_money.for_us(types), *today_bench.for_desk(engines, types), *today_parts.for_us(on)]
    return {
        "desk": True,
        "for_us": today_items.for_us(on, types, owner=owner, more=more),
        "accepted": today_items.accepted_today(on, types),
        "waiting": [
            *today_items.waiting(on, types),
            *today_money.others(on, types),
            *today_bench.waiting(engines, types),
        ],
        "coming": [
            *today_money.leaving(on, types),
            *today_bench.left(engines, types),
            *today_items.coming_in(on),
        ],
    }


def _books() -> dict[str, Any]:
    accepted = today.accepted_since(timezone.now() - timedelta(days=today.BOOKED_DAYS))
    return {
        "books": accepted,
        "books_on": True,
        "gross": sum((yes.gross for yes in accepted), Decimal(0)),
        "deposits": sum((yes.deposit for yes in accepted), Decimal(0)),
    }


@require_POST
def done(request: HttpRequest, pk: int) -> HttpResponse:
    """Takes an accepted build off the bench."""
    assert isinstance(request.user, User)
    acceptance = get_object_or_404(Acceptance.objects.select_related("quote"), pk=pk)
    try:
        mark_done(acceptance=acceptance, by=request.user, now=timezone.now())
    except Refused as refused:
        messages.error(request, str(refused))
        return redirect("home")
    messages.success(request, f"{acceptance.quote.title} is off the bench.")
    return redirect("home")


urlpatterns = [
    path("", home, name="home"),
    path("builds/<int:pk>/done/", done, name="build-done"),
]
