"""Changing an entry, and entering a new one: for the owner."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.actions.editing import Edit, add_entry, change_entry
from catalogue.actions.refused import AlreadyThere, ChecksFailed, Refused, StaleEntry
from catalogue.calc.outlined import in_short
from catalogue.calc.said import say, say_inside
from catalogue.forms.cards import CARDS
from catalogue.forms.entry import EntryForm
from catalogue.queries import EmptyCatalogueError, current_rows, rows_as_written
from catalogue.queries.listed_offers import with_listed
from catalogue.queries.shapes import SHAPES
from catalogue.queries.versions import version_of
from catalogue.views.entries import found_or_404, name_of
from catalogue.views.sheets import SHEETS
from catalogue.views.shown import labels


def change(request: HttpRequest, kind: str, code: str) -> HttpResponse:
    """The card of one entry, to change it. Two people at once: the second is shown what changed."""
    if kind == "policies":
        raise Http404("Habits are shipped for reading; the workshop's own are in its settings.")
    _, row = found_or_404(kind, code, rows_as_written)
    data = request.POST.dict() if request.method == "POST" else None
    dump = (
        with_listed(row.model_dump(), request.GET.get("listed", "")) if kind == "parts" else row.model_dump()
    )
    form = EntryForm(CARDS[kind], current_rows(), dump=dump, version=version_of(kind, code), data=data)
    context: dict[str, Any] = {"code": code, "name": name_of(row, code)}
    if form.is_valid() and data is not None:
        try:
            return _kept(request, kind, code, form)
        except ChecksFailed as refused:
            form.add_faults(refused.faults)
        except StaleEntry as stale:
            context["stale"] = _stale(stale, kind, form)
        except Refused as refused:
            form.add_error(None, str(refused))
    return _card(request, kind, form, context)


def _kept(request: HttpRequest, kind: str, code: str, form: EntryForm) -> HttpResponse:
    edit = Edit(kind, code, form.values(), form.cleaned_data["version"] or 0, form.cleaned_data["from_where"])
    fields = change_entry(edit=edit, by=request.user, now=timezone.now())  # type: ignore[arg-type]
    named = labels(CARDS[kind])
    if fields:
        kept = dict.fromkeys(say_inside(named.get(field, field.replace("_", " "))) for field in fields)
        messages.success(request, say("Kept: {fields}.", fields=", ".join(kept)))
    else:
        messages.success(request, say("Nothing was different, so nothing was changed."))
    return redirect("catalogue:entry", kind, code)


def _stale(stale: StaleEntry, kind: str, form: EntryForm) -> dict[str, Any]:
    """What changed meanwhile, beside what was typed; the next press goes over it."""
    named = labels(CARDS[kind])
    typed = form.values()
    form.data = {**form.data, "version": str(stale.version)}
    return {
        "said": str(stale),
        "changes": [
            {
                "what": named.get(theirs.field, theirs.field.replace("_", " ")),
                "was": in_short(theirs.was),
                "now": in_short(theirs.now),
                "yours": in_short(typed.get(theirs.field, say("not on this card"))),
                "by": theirs.by,
            }
            for theirs in stale.changes
        ],
    }


def new(request: HttpRequest, kind: str) -> HttpResponse:
    """An empty card, to enter something of the workshop's own."""
    if not SHEETS[kind].may_add:
        raise Http404("Nothing is entered here by hand.")
    try:
        rows = current_rows()
    except EmptyCatalogueError as nothing:
        messages.error(request, say("Load the catalogue first: {why}.", why=nothing))
        return redirect("catalogue:home")
    data = request.POST.dict() if request.method == "POST" else None
    dump = with_listed({}, request.GET.get("listed", "")) if kind == "parts" else {}
    form = EntryForm(CARDS[kind], rows, dump=dump, version=None, data=data)
    if form.is_valid() and data is not None:
        try:
            code = add_entry(kind=kind, values=form.values(), by=request.user, now=timezone.now())  # type: ignore[arg-type]
        except ChecksFailed as refused:
            form.add_faults(refused.faults)
        except AlreadyThere as refused:
            form.add_error(SHAPES[kind].columns["code"], str(refused))
        else:
            messages.success(request, say("Entered: {code}.", code=code))
            return redirect("catalogue:entry", kind, code)
    return _card(request, kind, form, {"name": say("New {one}", one=SHEETS[kind].one)})


def _card(request: HttpRequest, kind: str, form: EntryForm, context: dict[str, Any]) -> HttpResponse:
    context = {**context, "sheet": SHEETS[kind], "form": form}
    return render(request, "catalogue/change.html", context)
