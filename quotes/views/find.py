"""Find anything: one box in the head of every page."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path

from quotes.calc.find import sought, the_one_meant
from quotes.queries.find.kind import Kind
from quotes.queries.find.kinds import KINDS
from quotes.queries.find.look import found_among
from quotes.queries.rights import Person, may_open


def find(request: HttpRequest) -> HttpResponse:
    """What was found, as a page or, while one types, below the box; a whole number leads to its page."""
    looked_for = sought(request.GET.get("q", ""))
    kinds = kinds_open_to(request.user)
    groups = found_among(kinds, looked_for)
    as_typed = request.headers.get("HX-Request") == "true"
    meant = None if as_typed else the_one_meant(groups)
    if meant is not None:
        return redirect(meant.page, *meant.args)
    context = {"looked_for": looked_for, "groups": groups, "kinds": kinds}
    return render(request, "quotes/find/hanging.html" if as_typed else "quotes/find.html", context)


def kinds_open_to(user: Person) -> list[Kind]:
    """The kinds whose pages this person may open."""
    return [kind for kind in KINDS if may_open(user, kind.page)]


urlpatterns = [path("find/", find, name="find")]
