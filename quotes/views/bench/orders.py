"""Purchase orders: what may be ordered, by supplier; one order; the list; and taking in what came."""

from __future__ import annotations

from typing import Any, Literal

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from quotes.actions.bench.order_files import order_file
from quotes.actions.bench.orders import Asked, send_order
from quotes.actions.bench.receipts import PiecesTold, take_in_all, tell_of_pieces
from quotes.actions.refused import Refused
from quotes.calc.bench.parts.order_sheet import OrderSheet
from quotes.forms.bench.parts import TellForm
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import OrderEvent, OrderLine, PurchaseOrder
from quotes.queries.bench.parts.drafts import drafts
from quotes.queries.bench.parts.orders import order_with_lines, orders_listed
from quotes.queries.books.order_bills import bills_of
from quotes.views.books.listed import currency_now, decimals_now
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import download

APART = "|"
"""Between build, key and component of a ticked line; in none of them."""


@require_safe
def listed(request: HttpRequest) -> HttpResponse:
    """Orders: what is awaited first."""
    on = timezone.localdate()
    rows = [(one, one.words(on)) for one in orders_listed(on)]
    return render(request, "quotes/bench/orders.html", {"rows": rows, "today": on, **_coins()})


def new(request: HttpRequest) -> HttpResponse:
    """What may be ordered, one form for each supplier; `?line=` ticks only those, else all are ticked."""
    on = timezone.localdate()
    fault, supplier = "", request.POST.get("supplier", "")
    if request.method == "POST":
        try:
            order = send_order(asked=_asked(request), by=signed_in(request), now=timezone.now())
        except (Refused, ValidationError) as wrong:
            fault = str(wrong) if isinstance(wrong, Refused) else " ".join(wrong.messages)
        else:
            messages.success(
                request,
                say("{number} is written. Send the PDF or the file to the supplier.", number=order.number),
            )
            return redirect("order", order.pk)
    ticked = set(request.POST.getlist("line") or request.GET.getlist("line"))
    context = {
        "drafts": drafts(on),
        "ticked": ticked,
        "typed": request.POST,
        "fault": fault,
        "faulty": supplier,
        "today": on,
        **_coins(),
    }
    return render(request, "quotes/bench/order_new.html", context)


def _asked(request: HttpRequest) -> list[Asked]:
    found = []
    for value in request.POST.getlist("line"):
        build, key, component = [*value.split(APART), "", ""][:3]
        if build.isdecimal() and len(build) < 10:
            size = request.POST.get(f"size{APART}{value}", "").replace("\x00", "")[:80]
            found.append(Asked(int(build), key, component, size))
    return found


@require_safe
def one(request: HttpRequest, pk: int) -> HttpResponse:
    """One order with where its pieces are and all that was written down about them."""
    order = get_object_or_404(PurchaseOrder.objects.select_related("ordered_by"), pk=pk)
    events = OrderEvent.objects.filter(line__order=order).select_related("line", "by").order_by("at", "pk")
    found = order_with_lines(order)
    context = {
        "order": order,
        "found": found,
        "events": list(events),
        "words": found.words(timezone.localdate()),
        "net": OrderSheet.model_validate(order.sheet).net,
        "bills": bills_of(order),
        **_coins(),
    }
    return render(request, "quotes/bench/order.html", context)


def receive(request: HttpRequest, pk: int) -> HttpResponse:
    """Take in what came: one press for what is whole, a form for all else."""
    order = get_object_or_404(PurchaseOrder, pk=pk)
    if "all" in request.POST:
        on, by, now = timezone.localdate(), signed_in(request), timezone.now()
        take_in_all(order=order, on=on, key=card_key(request), by=by, now=now)
        messages.success(request, say("Kept: all of {number} came, whole.", number=order.number))
        return redirect("order", pk)
    form = TellForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        try:
            event = _told(request, order, form)
            messages.success(request, say("Kept: {what}, {event}.", what=event.line.description, event=event))
            return redirect("receive-parts", pk)
        except ValidationError as wrong:
            refuse(form, wrong)
    return render(request, "quotes/bench/receive.html", _receiving(order, form))


def _told(request: HttpRequest, order: PurchaseOrder, form: TellForm) -> OrderEvent:
    told = dict(form.cleaned_data)
    line = get_object_or_404(OrderLine, pk=told.pop("line"), order=order)
    return tell_of_pieces(
        line=line, told=PiecesTold(**told), key=card_key(request), by=signed_in(request), now=timezone.now()
    )


def _receiving(order: PurchaseOrder, faulty: TellForm) -> dict[str, Any]:
    """Each line with a form of its own; the one that was refused keeps what was typed."""
    found = order_with_lines(order)
    typed = faulty["line"].value() if faulty.is_bound else None
    rows = []
    for line, stands in found.lines:
        initial = {"line": line.pk, "on": timezone.localdate(), "quantity": stands.to_come or None}
        mine = str(typed) == str(line.pk)
        form = faulty if mine else TellForm(initial=initial, auto_id=f"id_{line.pk}_%s")
        rows.append((line, stands, form, mine, fresh_key()))
    today = timezone.localdate()
    return {"order": order, "found": found, "rows": rows, "today": today, "key": fresh_key()}


def _coins() -> dict[str, Any]:
    return {"currency": currency_now(), "decimals": decimals_now()}


@require_safe
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    return _file(get_object_or_404(PurchaseOrder, pk=pk), "pdf")


@require_safe
def flat(request: HttpRequest, pk: int) -> HttpResponse:
    return _file(get_object_or_404(PurchaseOrder, pk=pk), "csv")


def _file(order: PurchaseOrder, kind: Literal["pdf", "csv"]) -> HttpResponse:
    """The stored paper or file of the order, as it was made once."""
    return download(order_file(order=order, kind=kind))


urlpatterns = [
    path("bench/orders/", listed, name="order-list"),
    path("bench/orders/new/", new, name="order-new"),
    path("bench/orders/<int:pk>/", one, name="order"),
    path("bench/orders/<int:pk>.pdf", paper, name="order-pdf"),
    path("bench/orders/<int:pk>.csv", flat, name="order-csv"),
    path("bench/orders/<int:pk>/receive/", receive, name="receive-parts"),
]
