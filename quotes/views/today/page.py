"""Today: what each person has to do."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.queries import engine_type_choices
from quotes.actions.accepting import mark_done
from quotes.actions.refused import Refused
from quotes.models import Acceptance, Job, Workshop
from quotes.queries import today
from quotes.queries.bench.jobs import jobs_here, jobs_left
from quotes.queries.people import roles_of
from quotes.queries.slots import bench_of, jobs_in_hand
from quotes.queries.workshop import closed_days
from quotes.views.books.home_lines import lines
from quotes.views.slots import WeekRow, week_rows
from quotes.views.today import bench as today_bench
from quotes.views.today import first_steps
from quotes.views.today import items as today_items
from quotes.views.today import money as today_money
from quotes.views.today import parts as today_parts
from quotes.views.today.item import Types, engine_words

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
    engines = jobs_here() if roles & {"desk", "builder", "owner"} else []
    if roles & {"desk", "owner"}:
        context |= _desk(on, types, engines, owner="owner" in roles)
    if roles & {"builder", "owner"}:
        context["at_the_bench"] = today_bench.for_builder(engines, types)
        context["builds"] = [(yes, engine_words(yes.quote.engine, types)) for yes in today.builds_in_hand()]
    if roles & {"desk", "builder", "owner"}:
        context["weeks"] = _weeks(on)
    if roles & {"books", "owner"}:
        context |= _books()
        context["money"] = lines(on, builds="desk" not in roles and "owner" not in roles)
    return render(request, "quotes/home.html", context)


def _desk(on: date, types: Types, engines: list[Job], *, owner: bool) -> dict[str, Any]:
    here = today_bench.for_desk(engines, types)
    more = [*today_money.for_us(on, types), here, *today_parts.for_us(on)]
    for_us = today_items.for_us(on, types, owner=owner, more=more)
    return {
        "desk": True,
        "for_us": for_us.items,
        "cut": for_us.cut,
        "accepted": today_items.accepted_today(on, types),
        "waiting": [
            *today_items.waiting(on, types),
            *today_money.others(on, types),
            *today_bench.waiting(engines, types),
        ],
        "coming": [
            *today_money.leaving(on, types),
            *today_bench.left(jobs_left(on), types),
            *today_items.coming_in(on),
        ],
    }


def _weeks(on: date) -> list[WeekRow]:
    jobs, workshop = jobs_in_hand(), Workshop.objects.get_or_default()
    return week_rows(bench_of(on, workshop, closed_days(workshop, on), jobs), jobs, WEEKS)


def _books() -> dict[str, Any]:
    said_yes = today.said_yes_since(timezone.now() - timedelta(days=today.BOOKED_DAYS))
    return {"books": said_yes, "books_on": True}


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
