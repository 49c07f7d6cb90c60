"""Machine work: what is out, a new works order, and the check of what came back."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say
from catalogue.views.file_answer import shown_pdf
from quotes.actions.bench.works_orders import CameBack, SentOut, send_out, take_back
from quotes.actions.refused import Refused
from quotes.calc.bench.parts.taken_off import GOES_WITH
from quotes.calc.bench.parts.target_sizes import Target
from quotes.calc.bench.parts.works_sheet import WorksSheet
from quotes.documents.bench.works_order import works_order_pdf
from quotes.forms.bench.work import TakeBackForm, send_out_form, target_rows
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.models import Job, WorksOrder
from quotes.queries.bench.jobs import catalogue_of
from quotes.queries.bench.parts.works_orders import orders_out, totals_in_words
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in


@require_safe
def all_out(request: HttpRequest) -> HttpResponse:
    """All machine work that is away, whatever engine it is of."""
    context = {"orders": list(orders_out()), "today": timezone.localdate()}
    return render(request, "quotes/bench/works_orders_out.html", context)


@require_safe
def listed(request: HttpRequest, pk: int) -> HttpResponse:
    """The works orders of one job, and what has been taken off its engine."""
    job = get_object_or_404(Job.objects.joined(), pk=pk)
    context = {
        "job": job,
        "orders": list(WorksOrder.objects.filter(job=job).order_by("sent_on", "pk")),
        "totals": totals_in_words(job.engine_id),
        "today": timezone.localdate(),
    }
    return render(request, "quotes/bench/works_orders.html", context)


def new(request: HttpRequest, pk: int) -> HttpResponse:
    """Write a works order; `?work=` names the machine work."""
    job = get_object_or_404(Job.objects.joined(), pk=pk)
    catalogue = catalogue_of(job)
    data = request.POST if request.method == "POST" else None
    works = [(work.code, work.name) for work in catalogue.machine_work.values()]
    form = send_out_form(
        data, works, _usual(job, catalogue, request.GET.get("work", ""), timezone.localdate())
    )
    rows = target_rows(data)
    if data is not None and form.is_valid() and rows.is_valid():
        try:
            made = _sent(request, job, form, tuple(row.value() for row in rows.standing()))
            messages.success(
                request, say("{number} is written. Print it and send it with the part.", number=made.number)
            )
            return redirect("works-order", made.pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    context = {
        "job": job,
        "form": form,
        "rows": rows,
        "key": request.POST.get("key") or fresh_key(),
        "totals": totals_in_words(job.engine_id),
    }
    return render(request, "quotes/bench/works_order_new.html", context)


def _usual(job: Job, catalogue: EngineCatalogue, code: str, on: date) -> dict[str, Any]:
    """What is usually sent: whole job, the vendor's own lead, and what goes with it."""
    usual: dict[str, Any] = {"tag": job.tag, "sent_on": on, "quantity": Decimal(1)}
    work = catalogue.machine_work.get(code)
    if work is None:
        return usual
    return usual | {
        "machine_work": code,
        "vendor": work.vendor,
        "quantity": Decimal(work.quantity),
        "expected_on": on + timedelta(days=round(work.lead.typical_days * 7 / 5)),
        "slow_on": on + timedelta(days=round(work.lead.slow_days * 7 / 5)),
        "goes_with": "\n".join(GOES_WITH.get(code, ())),
    }


def _sent(request: HttpRequest, job: Job, form: Any, targets: tuple[Target, ...]) -> WorksOrder:
    told = form.cleaned_data
    sent = SentOut(
        machine_work=told["machine_work"],
        vendor=told["vendor"],
        tag=told["tag"],
        quantity=told["quantity"],
        sent_on=told["sent_on"],
        expected_on=told["expected_on"],
        slow_on=told["slow_on"],
        targets=targets,
        goes_with=form.sent_along(),
        words=told["words"],
    )
    return send_out(job=job, sent=sent, key=card_key(request), by=signed_in(request), now=timezone.now())


def one(request: HttpRequest, pk: int) -> HttpResponse:
    """One works order; a post is the check of what came back."""
    row = get_object_or_404(WorksOrder.objects.select_related("job__engine", "job__customer", "by"), pk=pk)
    targets = [Target.model_validate(each) for each in row.targets]
    data = request.POST if request.method == "POST" else None
    form = TakeBackForm(data, targets, initial={"on": timezone.localdate()})
    if data is not None and form.is_valid():
        try:
            take_back(order=row, back=_back(form), by=signed_in(request), now=timezone.now())
            return redirect("works-order", pk)
        except ValidationError as wrong:
            refuse(form, wrong)
    checked = {each["name"]: each["value"] for each in row.checked}
    context = {
        "order": row,
        "job": row.job,
        "form": form,
        "sizes": [(target, checked.get(target.name, "")) for target in targets],
        "totals": totals_in_words(row.job.engine_id),
    }
    return render(request, "quotes/bench/works_order.html", context)


def _back(form: TakeBackForm) -> CameBack:
    told = form.cleaned_data
    return CameBack(
        on=told["on"],
        tag=told["tag"],
        checked=form.checked(),
        sound=told["sound"] == "yes",
        taken_off_mm=told["taken_off_mm"],
        cost=told["cost"],
        note=told["note"],
    )


@require_safe
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The works order on paper."""
    row = get_object_or_404(WorksOrder, pk=pk)
    content = works_order_pdf(WorksSheet.model_validate(row.sheet))
    return shown_pdf(content, f"{row.number}.pdf")


urlpatterns = [
    path("bench/machine-work/", all_out, name="works-orders-out"),
    path("bench/<int:pk>/machine-work/", listed, name="works-order-list"),
    path("bench/<int:pk>/machine-work/new/", new, name="works-order-new"),
    path("bench/machine-work/<int:pk>/", one, name="works-order"),
    path("bench/machine-work/<int:pk>.pdf", paper, name="works-order-pdf"),
]
