"""Parts that carry their own age: all of them, a new one, and the page of one with its logbook and moves."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.queries import duty_choices, engine_type_choices
from quotes.actions.bench.lifed_parts import register
from quotes.actions.bench.part_moves import MovedWhen, fit, recondition, scrap, take_out
from quotes.actions.refused import Refused
from quotes.calc.sheet.unit_words import plain_figure
from quotes.forms.bench.lifed_parts import FitForm, LifedPartForm, MoveForm
from quotes.forms.books.fields import offer
from quotes.forms.books.refusing import refuse
from quotes.forms.figures import SettingsForm, as_of
from quotes.models import Engine, LifedPart
from quotes.queries.bench.ages.lifed_parts import (
    engines_for,
    lifed_components,
    marked_alike,
    part_seen,
    parts_in,
    parts_on_shelf,
    parts_seen,
)
from quotes.views.books.parts import payers
from quotes.views.every_request.person import signed_in

Choices = list[tuple[str, str]]


@require_safe
def listed(request: HttpRequest) -> HttpResponse:
    """Every part in use, or those that are gone."""
    gone = "gone" in request.GET
    context = {"parts": parts_seen(scrapped=gone), "gone": gone, "types": engine_type_choices()}
    return render(request, "quotes/bench/lifed_parts.html", context)


def new(request: HttpRequest) -> HttpResponse:
    """Enter a part of the engine type `?type=`; `?engine=` where it sits in one, `?serial=` its mark."""
    types = dict(engine_type_choices())
    type_code = request.GET.get("type", "")
    if type_code not in types:
        return redirect("lifed-parts")
    known = lifed_components(type_code)
    first = {"serial": request.GET.get("serial", "")[:80], "engine": request.GET.get("engine", "")}
    form = LifedPartForm(request.POST if request.method == "POST" else None, prefix="part", initial=first)
    engines = engines_for(LifedPart(type_code=type_code))
    offer(form, "component", [("", say("choose")), *known.items()])
    offer(form, "ran_before_duty", [("", say("choose")), *duty_choices()])
    offer(form, "engine", [("", say("no, it lies on the shelf")), *_named(engines)])
    if form.is_bound and form.is_valid():
        try:
            return redirect("lifed-part", _registered(request, form, type_code).pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong, "engine" if isinstance(wrong, Refused) else None)
    context = {"form": form, "type_name": types[type_code], **payers()}
    return render(request, "quotes/bench/lifed_part_new.html", context)


def _named(engines: list[Engine]) -> Choices:
    return [(str(row.pk), f"{row.number or say('no number')}, {row.customer}") for row in engines]


@transaction.atomic
def _registered(request: HttpRequest, form: LifedPartForm, type_code: str) -> LifedPart:
    """The part, and in its engine where it is in one: both or neither."""
    told = form.cleaned_data
    made = register(
        component=told["component"],
        type_code=type_code,
        serial=told["serial"],
        before=form.before(),
        grade=told["grade"],
        owner=told["owner"],
        note=told["note"],
    )
    if told["engine"]:
        engine = Engine.objects.get(pk=told["engine"])
        move = MovedWhen(on=timezone.localdate())
        fit(part=made, engine=engine, move=move, by=signed_in(request), now=timezone.now())
    return made


def one(request: HttpRequest, pk: int) -> HttpResponse:
    """A part with everywhere it has been; a post moves it."""
    part = get_object_or_404(LifedPart, pk=pk)
    alike = marked_alike(part)
    form = _move_form(request, part)
    as_of(form, timezone.localdate())
    if form.is_bound and form.is_valid():
        try:
            messages.success(request, _moved(request, part, form))
            return redirect("lifed-part", pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    seen = part_seen(pk)
    if seen is None:
        raise Http404
    context = {"seen": seen, "part": seen.row, "form": form, "alike": alike, "names": _names(alike)}
    context["duties"] = dict(duty_choices())
    return render(request, "quotes/bench/lifed_part.html", context)


def _move_form(request: HttpRequest, part: LifedPart) -> MoveForm:
    """Out of its engine where it is in one, else into one."""
    data = request.POST if request.method == "POST" else None
    first = {"on": timezone.localdate(), "alike": True}
    if part.stays.filter(until_on=None).exists():
        return MoveForm(data, prefix="move", initial=first)
    form = FitForm(data, prefix="move", initial=first)
    offer(form, "engine", [("", say("choose")), *_named(engines_for(part))])
    if data is not None and {"scrap", "recondition"} & data.keys():
        del form.fields["engine"]
    return form


def _moved(request: HttpRequest, part: LifedPart, form: SettingsForm) -> str:
    by, now = signed_in(request), timezone.now()
    move: MovedWhen = form.move()  # type: ignore[attr-defined]
    if "scrap" in request.POST:
        scrap(part=part, on=move.on, now=now)
        return say("{serial} is scrapped: it goes into no engine any more.", serial=part.serial)
    if "recondition" in request.POST:
        recondition(part=part, on=move.on, by=by, now=now)
        return say("{serial} is reconditioned: what is left of its age counts on.", serial=part.serial)
    if "engine" in form.fields:
        engine = get_object_or_404(Engine, pk=form.cleaned_data["engine"])
        stay = fit(part=part, engine=engine, move=move, by=by, now=now)
        at = f"{plain_figure(stay.from_amount)} {stay.get_unit_display()}"
        return say(
            "{serial} is in engine {engine}, fitted at {at}.", serial=part.serial, engine=engine, at=at
        )
    take_out(part=part, move=move, by=by, now=now)
    return say("{serial} is on the shelf.", serial=part.serial)


@require_safe
def in_engine(request: HttpRequest, pk: int) -> HttpResponse:
    """What an engine holds with an age of its own, and what would go into it."""
    engine = get_object_or_404(Engine.objects.select_related("customer"), pk=pk)
    shelf = parts_on_shelf(engine.type_code)
    context = {"engine": engine, "parts": parts_in(engine), "shelf": shelf}
    return render(request, "quotes/bench/lifed_parts_in.html", context)


def _names(alike: list[LifedPart]) -> str:
    known = lifed_components(alike[0].type_code) if alike else {}
    return ", ".join(known.get(row.component, row.component) for row in alike)


urlpatterns = [
    path("bench/lifed-parts/", listed, name="lifed-parts"),
    path("bench/lifed-parts/new/", new, name="lifed-part-new"),
    path("bench/lifed-parts/<int:pk>/", one, name="lifed-part"),
    path("bench/engines/<int:pk>/lifed-parts/", in_engine, name="lifed-parts-in"),
]
