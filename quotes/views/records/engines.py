"""One engine: its record with its past, the quotes it has had, and a new one for a customer."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone

from catalogue.calc.said import say, say_figure
from catalogue.views.untouched import keeps_theirs
from quotes.actions.engines import create_engine, update_engine
from quotes.actions.refused import StaleDraft
from quotes.forms.filling import blank_data, engine_data
from quotes.forms.records import EngineRecord
from quotes.models import Customer, Engine
from quotes.queries.bench.ages.lifed_parts import parts_in
from quotes.queries.bench.ages.outcomes import builds_of
from quotes.queries.bench.leaving.dyno import powers_of
from quotes.queries.engines import engine_asked
from quotes.views.card.answers import faults_of, offered_for
from quotes.views.every_request.form_marks import version_of

LONGEST_NOTE = 2000


def engine(request: HttpRequest, pk: int) -> HttpResponse:
    """An engine's record; a post changes it."""
    found = get_object_or_404(Engine.objects.with_history(), pk=pk)
    known = engine_asked(found)
    data: Any = request.POST
    if request.method != "POST":
        data = engine_data(known) | {"number": found.number, "note": found.note}
    record = EngineRecord(data, offered_for(str(data.get("type", ""))), known)
    if request.method == "POST" and not changed_rows(request, record):
        stale = _keep(request, record, found)
        if stale is None and not _has_faults(record):
            return redirect("engine", pk)
        return _page(request, record, found.customer, found, stale)
    return _page(request, record, found.customer, found, None)


def new_engine(request: HttpRequest, customer: int) -> HttpResponse:
    """A further engine of a customer."""
    owner = get_object_or_404(Customer, pk=customer)
    on = timezone.localdate()
    offered = offered_for(request.POST.get("type", ""))
    record = EngineRecord(request.POST or blank_data(offered), offered)
    if request.method == "POST" and not changed_rows(request, record):
        asked = record.asked(on, lambda trial: faults_of(trial, offered))
        if asked is not None:
            try:
                made = create_engine(customer=owner, number=record.engine.typed("number"), asked=asked)
                return redirect("engine", made.pk)
            except ValidationError as refusal:
                _refuse(record, refusal)
    return _page(request, record, owner, None, None)


def _keep(request: HttpRequest, record: EngineRecord, found: Engine) -> StaleDraft | None:
    """Write the record, or put what is wrong at its fields; somebody else's change is handed back."""
    note = request.POST.get("note", "")
    if len(note) > LONGEST_NOTE or "\x00" in note:
        most, here = say_figure(LONGEST_NOTE, 0), say_figure(len(note), 0)
        fault = say("At most {most} characters that can be kept: {here} here.", most=most, here=here)
        record.engine.say("note", fault)
    on = timezone.localdate()
    asked = record.asked(on, lambda trial: faults_of(trial, record.offered))
    if asked is None:
        return None
    try:
        update_engine(
            engine=found,
            number=record.engine.typed("number"),
            asked=asked,
            expected_version=version_of(request),
            note=note,
        )
    except StaleDraft as stale:
        return stale
    except ValidationError as refusal:
        _refuse(record, refusal)
    return None


def changed_rows(request: HttpRequest, record: EngineRecord) -> bool:
    """Without a script: a row more or less, and nothing kept."""
    rows = record.all_rows.get(request.POST.get("add", ""))
    if rows is not None:
        rows.add()
    for each in record.all_rows.values():
        each.drop(request.POST.get("drop", ""))
    return "add" in request.POST or "drop" in request.POST


def _has_faults(record: EngineRecord) -> bool:
    return any(form.errors for form in record.forms)


def _refuse(record: EngineRecord, refusal: ValidationError) -> None:
    record.engine.say("number", refusal.messages[0])


def _page(
    request: HttpRequest,
    record: EngineRecord,
    owner: Customer,
    found: Engine | None,
    stale: StaleDraft | None,
) -> HttpResponse:
    told = {
        "card": record,
        "engine": found,
        "only_engine": True,
        "customer": owner,
        "stale": stale,
        "version": (stale.version if stale else found.version) if found else "",
        "lifed_parts": parts_in(found) if found else (),
        "powers": powers_of(found) if found else (),
        "builds": builds_of(found) if found else (),
        "quotes": found.quotes.with_state(timezone.localdate()).joined() if found else (),
    }
    return render(request, "quotes/engines_edit.html", told)


urlpatterns = [
    path("engines/<int:pk>/", keeps_theirs(engine), name="engine"),
    path("customers/<int:customer>/engines/new/", new_engine, name="engine-new"),
]
