"""The leave to strip, the no that may come after it, the receipt, and the owner's prices of a strip-down."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from catalogue.views.file_answer import shown_pdf
from quotes.actions.bench.declining import decline_job, send_back
from quotes.actions.bench.intake_receipts import give_receipt, intake_receipt_file
from quotes.actions.bench.leave import drawn_leave, give_leave, leave_file, save_teardown_prices
from quotes.actions.refused import Refused
from quotes.calc.bench.teardown.leave_sheet import LeaveSheet
from quotes.documents.bench.leave import leave_context
from quotes.forms.bench.leave import LeaveForm, NoForm, PricesForm
from quotes.models import CalledOff, IfNot, Job, TeardownLeave, Workshop
from quotes.queries.bench.teardown.leave import leave_sheet, prices_set, teardown_sums
from quotes.queries.bench.teardown.money import deposits_paid
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served


def _row(pk: int) -> Job:
    rows = Job.objects.joined().select_related("leave__written_by", "went_no_further__draft", "received_by")
    return get_object_or_404(rows.defer("quote__request"), pk=pk)


def _leave_of(row: Job) -> TeardownLeave | None:
    return getattr(row, "leave", None)


def leave(request: HttpRequest, pk: int) -> HttpResponse:
    """Take the customer's leave; once it is given, what was agreed and the deposit."""
    row = _row(pk)
    if _leave_of(row) is not None:
        return _given(request, row)
    form = _leave_form(row, request.POST if request.method == "POST" else None)
    if not form.is_valid():
        return _ask(request, row, form)
    try:
        give_leave(job=row, given=form.given(), by=signed_in(request), now=timezone.now())
    except Refused as refused:
        return _ask(request, row, form, refused=str(refused))
    except ValidationError as wrong:
        for name, faults in wrong.message_dict.items():
            form.add_error(name if name in form.fields else None, faults[0])
        return _ask(request, row, form)
    messages.success(request, say("Leave to strip {number} is given.", number=row.number))
    return redirect("job-leave", pk)


def _leave_form(row: Job, data: Any) -> LeaveForm:
    sums = teardown_sums(row, timezone.localdate())
    first = {
        "price": sums.price,
        "put_back_price": sums.put_back,
        "deposit": sums.deposit,
        "credited_if_ahead": True,
        "name": row.customer.name,
        "right": row.right_to_hand_over,
    }
    return LeaveForm(data, initial=first, currency=Workshop.objects.get_or_default().currency)


def _ask(request: HttpRequest, row: Job, form: LeaveForm, refused: str = "") -> HttpResponse:
    context = {"job": row, "types": dict(engine_type_choices()), "form": form, "refused": refused}
    return render(request, "quotes/bench/leave.html", context)


def _given(request: HttpRequest, row: Job) -> HttpResponse:
    given = _leave_of(row)
    assert given is not None
    paid = deposits_paid(row)
    context = {
        **leave_context(LeaveSheet.model_validate(given.sheet)),
        "job": row,
        "types": dict(engine_type_choices()),
        "leave": given,
        "paid": paid,
        "to_pay": max(given.deposit - sum((one.amount for one, _ in paid), Decimal(0)), Decimal(0)),
    }
    return render(request, "quotes/bench/leave_given.html", context)


@require_safe
def leave_paper(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The leave on paper: as it was given, or with a place to sign for one of the three ways of a no."""
    row = _row(pk)
    given = _leave_of(row)
    if given is not None:
        return served(request, leave_file(leave=given))
    asked = request.GET.get("if_not", "")
    on = timezone.localdate()
    sheet = leave_sheet(
        row,
        teardown_sums(row, on),
        on,
        credited_if_ahead=True,
        if_not=asked if asked in IfNot.values else IfNot.IN_BOXES.value,
    )
    return shown_pdf(drawn_leave(sheet), f"{row.number}-leave-to-sign.pdf")


def declined(request: HttpRequest, pk: int) -> HttpResponse:
    """Write down the customer's no, and what becomes of the engine."""
    row = _row(pk)
    given = _leave_of(row)
    first = {"name": row.customer.name, "outcome": given.if_not if given else ""}
    form = NoForm(request.POST if request.method == "POST" else None, initial=first)
    context = {"job": row, "types": dict(engine_type_choices()), "form": form, "leave": given}
    if not form.is_valid():
        return render(request, "quotes/bench/declined.html", context)
    try:
        kept = decline_job(job=row, said=form.said(), by=signed_in(request), now=timezone.now())
    except (Refused, ValidationError) as refused:
        said = str(refused) if isinstance(refused, Refused) else refused.messages[0]
        return render(request, "quotes/bench/declined.html", context | {"refused": said})
    messages.success(
        request,
        say("{number}: the engine is {outcome}.", number=row.number, outcome=kept.get_outcome_display()),
    )
    return redirect("job", pk)


def sent_back(request: HttpRequest, pk: int) -> HttpResponse:
    """The engine has left as it was agreed on the no."""
    row = _row(pk)
    if request.method != "POST":
        context = {
            "job": row,
            "types": dict(engine_type_choices()),
            "no": getattr(row, "went_no_further", None),
            "called_off": CalledOff.objects.filter(build__quote__job=row).first(),
        }
        return render(request, "quotes/bench/sent_back.html", context)
    try:
        send_back(job=row, by=signed_in(request), now=timezone.now(), note=request.POST.get("note", "")[:300])
    except (Refused, ValidationError) as refused:
        said = str(refused) if isinstance(refused, Refused) else refused.messages[0]
        messages.error(request, said)
    return redirect("job", pk)


@require_safe
def receipt(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The receipt for the customer, as the job stands now; the same as before where nothing came to it."""
    given = give_receipt(job=_row(pk), by=signed_in(request), now=timezone.now())
    return served(request, intake_receipt_file(receipt=given))


def prices(request: HttpRequest) -> HttpResponse:
    """What a strip-down of each engine type costs."""
    types = engine_type_choices()
    standing = prices_set([code for code, _ in types], timezone.localdate())
    currency = Workshop.objects.get_or_default().currency
    form = PricesForm(types, standing, currency, request.POST if request.method == "POST" else None)
    if not form.is_valid():
        return render(request, "quotes/bench/teardown_prices.html", {"form": form})
    save_teardown_prices(prices=form.prices())
    messages.success(request, say("The prices are kept. Leave given from now on follows them."))
    return redirect("teardown-prices")


urlpatterns = [
    path("bench/<int:pk>/leave/", leave, name="job-leave"),
    path("bench/<int:pk>/leave.pdf", leave_paper, name="job-leave-paper"),
    path("bench/<int:pk>/no/", declined, name="job-declined"),
    path("bench/<int:pk>/sent-back/", sent_back, name="job-sent-back"),
    path("bench/<int:pk>/receipt.pdf", receipt, name="job-receipt"),
    path("bench/prices/", prices, name="teardown-prices"),
]
