"""The first page of the catalogue: its sheets, and how much is in each."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from catalogue.queries import lists
from catalogue.views.access import may_change
from catalogue.views.sheets import SHEETS


def home(request: HttpRequest) -> HttpResponse:
    """The sheets, or what to do first where nothing is loaded yet."""
    counts = lists.counts()
    sheets = [(sheet, counts[sheet.kind]) for sheet in SHEETS.values()]
    return render(
        request,
        "catalogue/home.html",
        {"sheets": sheets, "empty": not any(counts.values()), "owner": may_change(request)},
    )
