"""The customer reports what the engine has run, on his own page, and reads what falls due next."""

from __future__ import annotations

from uuid import UUID

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone

from quotes.actions.bench.after import Reported, report_service
from quotes.actions.bench.refused import ReportRunsBackwards
from quotes.forms.bench.after import ServiceForm
from quotes.forms.books.payment import fresh_key
from quotes.forms.books.refusing import refuse
from quotes.forms.figures import as_of
from quotes.models import Engine
from quotes.queries.bench.ages.after import due_of, released_job, with_after
from quotes.queries.sheets import sheet_of
from quotes.views.customer.link import OpenedLink, by_link
from quotes.views.every_request.form_marks import card_key


def may_report(opened: OpenedLink) -> bool:
    """Whether the engine has been handed over under this quote."""
    job = getattr(opened.quote, "job", None)
    return job is not None and hasattr(job, "release")


@by_link
def show(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """What is due; a post keeps what was reported."""
    if not may_report(opened):
        return render(request, "quotes/customer_gone.html", status=404)
    engine = with_after(Engine.objects.filter(pk=opened.quote.engine_id)).get()
    data = request.POST if request.method == "POST" else None
    on = timezone.localdate()
    form = ServiceForm(data, prefix="service", initial={"on": on})
    as_of(form, on)
    backwards = False
    if data is not None and form.is_valid():
        try:
            _report(engine, form, card_key(request))
            return redirect(opened.address("customer-service"))
        except ReportRunsBackwards as said:
            form.add_error("amount", str(said))
            backwards = True
        except ValidationError as wrong:
            refuse(form, wrong)
    context = {
        "opened": opened,
        "heading": sheet_of(opened.revision).heading,
        "due": due_of(engine, on),
        "job": released_job(engine),
        "form": form,
        "backwards": backwards,
        "key": request.POST.get("key") or fresh_key(),
    }
    return render(request, "quotes/bench/customer_service.html", context)


def _report(engine: Engine, form: ServiceForm, key: UUID) -> None:
    told = {name: value for name, value in form.cleaned_data.items() if name != "corrects"}
    report_service(
        engine=engine,
        told=Reported(**told, how="on the customer's own page"),
        key=key,
        now=timezone.now(),
        corrects=form.cleaned_data["corrects"],
    )


urlpatterns = [path("q/<str:token>/service/", show, name="customer-service")]
