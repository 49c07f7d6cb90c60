"""Substitutes of what can't be had, second ones at our own cost, and the list of cores."""

from __future__ import annotations

from typing import Any, Literal, cast

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say
from quotes.actions.bench.cores import open_core, send_core, settle_core
from quotes.actions.bench.order_again import order_again
from quotes.actions.bench.substitutes import Instead, drop_substitute, order_substitute, propose_substitute
from quotes.actions.refused import Refused
from quotes.forms.bench.parts import AgainForm, CoreForm, SubstituteForm, with_choices
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import Acceptance, Core, OrderLine, Substitute
from quotes.queries.bench.parts.orders import cores_open, days_left
from quotes.queries.bench.parts.substitutes import accepted_line, supplier_names
from quotes.queries.bench.parts.wanted import lines_of, open_builds
from quotes.views.books.listed import currency_now, decimals_now
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


def substitute(request: HttpRequest, pk: int) -> HttpResponse:
    """Another article for what is still to come of a line, or a second one of what was spoilt here."""
    ((line, stands),) = lines_of(_line(pk))
    accepted = accepted_line(line)
    data, what = request.POST if request.method == "POST" else None, request.POST.get("what", "")
    form = SubstituteForm(
        data if what == "instead" else None,
        prefix="instead",
        initial={
            "grade": line.grade or "stock",
            "supplier": line.order.supplier,
            "unit_price": accepted.unit_price if accepted else None,
        },
    )
    with_choices(form, {"supplier": list(supplier_names().items())})
    again = AgainForm(data if what == "again" else None, prefix="again")
    if data is not None and (done := _posted(request, line, form, again, what)):
        return done
    context = {
        "line": line,
        "order": line.order,
        "stands": stands,
        "form": form,
        "again": again,
        "accepted": accepted,
        "substitutes": list(line.substitutes.select_related("extra_work__build__quote", "by")),
        "key": fresh_key(),
        "currency": currency_now(),
        "decimals": decimals_now(),
    }
    return render(request, "quotes/bench/substitute.html", context)


def _line(pk: int) -> Any:
    get_object_or_404(OrderLine, pk=pk)
    return OrderLine.objects.filter(pk=pk).select_related("build__quote", "build__revision")


def _posted(request: HttpRequest, line: OrderLine, form: Any, again: Any, what: str) -> HttpResponse | None:
    asked = form if what == "instead" else again
    if not asked.is_valid():
        return None
    by, now, key = signed_in(request), timezone.now(), card_key(request)
    try:
        if what == "instead":
            made = propose_substitute(
                line=line, instead=Instead(**form.cleaned_data), key=key, by=by, now=now
            )
            messages.success(request, _asked_or_not(made))
            return redirect("substitute", line.pk)
        order = order_again(line=line, key=key, by=by, now=now, **again.cleaned_data)
    except (Refused, ValidationError) as wrong:
        refuse(asked, wrong)
        return None
    messages.success(request, say("{number} is written, at our own cost.", number=order.number))
    return redirect("order", order.pk)


def _asked_or_not(made: Substitute) -> str:
    if made.extra_work:
        return say(
            "Kept. The customer is asked under {number}: it is ordered after the yes.",
            number=made.extra_work.number,
        )
    return say("Kept. Price, quality and life stay as agreed: nobody need be asked, and it can be ordered.")


@require_POST
def decide(request: HttpRequest, pk: int) -> HttpResponse:
    """Order a substitute, or drop it."""
    row = get_object_or_404(Substitute, pk=pk)
    if "drop" in request.POST:
        drop_substitute(substitute=row, now=timezone.now())
        return redirect("substitute", row.line_id)
    try:
        order = order_substitute(substitute=row, by=signed_in(request), now=timezone.now())
    except (Refused, ValidationError) as wrong:
        messages.error(request, str(wrong) if isinstance(wrong, Refused) else " ".join(wrong.messages))
        return redirect("substitute", row.line_id)
    messages.success(
        request,
        say("{number} is written; what was still to come of the old is cancelled.", number=order.number),
    )
    return redirect("order", order.pk)


def cores(request: HttpRequest) -> HttpResponse:
    """Cores that have to go back, with the days that are left; a post writes a new one down."""
    on = timezone.localdate()
    builds = [(str(row.pk), f"{row.quote.title}, {row.quote.customer}") for row in open_builds()]
    form = CoreForm(request.POST if request.method == "POST" else None, prefix="core", initial={"on": on})
    with_choices(form, {"build": builds, "supplier": list(supplier_names().items())})
    if request.method == "POST" and form.is_valid():
        told = dict(form.cleaned_data)
        build = get_object_or_404(Acceptance, pk=told.pop("build"))
        try:
            open_core(build=build, by=signed_in(request), **told)
            return redirect("cores")
        except ValidationError as wrong:
            refuse(form, wrong)
    names = supplier_names()
    rows = [(row, names.get(row.supplier, row.supplier), days_left(row, on)) for row in cores_open()]
    context = {
        "rows": rows,
        "form": form,
        "today": on,
        "currency": currency_now(),
        "decimals": decimals_now(),
    }
    return render(request, "quotes/bench/cores.html", context)


@require_POST
def core_moved(request: HttpRequest, pk: int) -> HttpResponse:
    """A core was sent, or settled by the supplier; today."""
    row = get_object_or_404(Core, pk=pk)
    on, by, now, what = timezone.localdate(), signed_in(request), timezone.now(), request.POST.get("what", "")
    try:
        if what == "sent":
            send_core(core=row, on=on, by=by, now=now)
        elif what in ("refunded", "refused"):
            outcome = cast(Literal["refunded", "refused"], what)
            note = request.POST.get("note", "").replace("\x00", "")[:300]
            settle_core(core=row, outcome=outcome, on=on, note=note, by=by, now=now)
    except (Refused, ValidationError) as wrong:
        messages.error(request, str(wrong) if isinstance(wrong, Refused) else " ".join(wrong.messages))
    return redirect("cores")


urlpatterns = [
    path("bench/orders/lines/<int:pk>/", substitute, name="substitute"),
    path("bench/substitutes/<int:pk>/", decide, name="substitute-decide"),
    path("bench/cores/", cores, name="cores"),
    path("bench/cores/<int:pk>/", core_moved, name="core-moved"),
]
