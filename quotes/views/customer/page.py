"""The customer's page: read a quote, say yes, ask, say no, keep the papers."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from quotes.actions.accepting import accept
from quotes.actions.answers import ask, decline
from quotes.actions.files import quote_pdf_file, quote_workbook_file, receipt_file
from quotes.actions.refused import Refused, Superseded
from quotes.calc.sheet.issued_values import Sheet
from quotes.documents.customer_sheet import customer_sheet, heading_words
from quotes.documents.paper import receipt_context
from quotes.forms.customer import NONE_YET, RING_ME, AskForm, DeclineForm, YesForm
from quotes.models import Acceptance, Reply
from quotes.queries.bench.again.worked_again import since_first
from quotes.queries.sheets import accepted_value, request_of, sheet_of
from quotes.views.bench.customer_extra import extra_shown
from quotes.views.bench.customer_findings import reports_shown
from quotes.views.bench.customer_receipt import engine_shown
from quotes.views.customer.invoices import invoices_shown
from quotes.views.customer.link import OpenedLink, by_link, posted
from quotes.views.every_request.stored_answer import download


@by_link
@require_safe
def show(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """The quote as it stands."""
    return _page(request, opened)


@by_link
@posted
def say_yes(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """Record the yes, or that the customer wants to be rung."""
    form = YesForm(_sheet(opened), request.POST)
    if not form.is_valid():
        return _page(request, opened, yes=form)
    if form.picked == NONE_YET:
        return _ring(opened, form)
    try:
        _accept(opened, form)
    except ValidationError as wrong:
        form.tell(wrong)
        return _page(request, opened, yes=form)
    except Refused as refused:
        return _page(request, opened, yes=form, refused=str(refused))
    # With a place of its own: else the browser carries the form's over.
    return redirect(opened.address("customer-receipt") + "#main")


def _accept(opened: OpenedLink, form: YesForm) -> Acceptance:
    given = form.cleaned_data
    if given["shown"] != str(opened.revision.index):
        raise Superseded(opened.revision)
    return accept(
        revision=opened.revision,
        tier=form.picked,
        extras=form.extras,
        name=given["name"],
        right=given["right"],
        telephone=given["telephone"],
        limit_sum=form.limit_sum,
        agreed_terms=given["terms"],
        rider_safety_read=given["safety"],
        now=timezone.now(),
    )


def _ring(opened: OpenedLink, form: YesForm) -> HttpResponseRedirect:
    number = say("Telephone {telephone}.", telephone=form.cleaned_data["telephone"])
    text = f"{say(RING_ME)} {number}"
    ask(revision=opened.revision, text=text, name=form.cleaned_data["name"], now=timezone.now())
    return _back(opened)


@by_link
@posted
def put_question(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """Keep a question; the desk sees it waiting."""
    form = AskForm(request.POST)
    if not form.is_valid():
        return _page(request, opened, question=form)
    ask(revision=opened.revision, now=timezone.now(), **form.cleaned_data)
    return _back(opened)


@by_link
@posted
def say_no(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """Keep a no with its reason."""
    form = DeclineForm(request.POST)
    if not form.is_valid():
        return _page(request, opened, no=form)
    try:
        decline(revision=opened.revision, now=timezone.now(), **form.cleaned_data)
    except Refused as refused:
        return _page(request, opened, no=form, refused=str(refused))
    return _back(opened)


@by_link
@require_safe
def receipt(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """What was said yes to; before that, the quote."""
    if opened.acceptance is None:
        return redirect(opened.address("customer-quote"))
    sheet = sheet_of(opened.acceptance.revision).for_customer()
    context = {
        **receipt_context(sheet, accepted_value(opened.acceptance)),
        **heading_words(sheet),
        "opened": opened,
    }
    return render(request, "quotes/customer_receipt.html", context)


@by_link
@require_safe
def quote_pdf(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    return download(quote_pdf_file(revision=opened.revision))


@by_link
@require_safe
def quote_workbook(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    return download(quote_workbook_file(revision=opened.revision))


@by_link
@require_safe
def receipt_pdf(request: HttpRequest, opened: OpenedLink) -> HttpResponse:
    """The receipt on paper; before the yes, the quote's page."""
    if opened.acceptance is None:
        return redirect(opened.address("customer-quote"))
    return download(receipt_file(acceptance=opened.acceptance))


def _sheet(opened: OpenedLink) -> Sheet:
    return sheet_of(opened.revision).for_customer()


def _back(opened: OpenedLink) -> HttpResponseRedirect:
    """To the page, at what has been said so far."""
    return redirect(opened.address("customer-quote") + "#said")


def _page(
    request: HttpRequest,
    opened: OpenedLink,
    *,
    yes: YesForm | None = None,
    question: AskForm | None = None,
    no: DeclineForm | None = None,
    refused: str = "",
) -> HttpResponse:
    sheet = _sheet(opened)
    form = yes or YesForm(sheet)
    words = customer_sheet(sheet)
    context: dict[str, Any] = {
        **words,
        "opened": opened,
        "yes": form,
        "choices": [(option, form.ticked(option["tier"])) for option in words["options"]],
        "question": question or AskForm(),
        "no": no or DeclineForm(),
        "any_safety": any(option["leaves_safety"] for option in words["options"]),
        "refused": refused,
        "acceptance": opened.acceptance,
        "invoices": invoices_shown(opened),
        "extra_work": extra_shown(opened),
        **_engine(opened, sheet),
        "lapsed": opened.revision.is_lapsed(timezone.localdate()),
        "superseded": opened.link.revision_id != opened.revision.pk,
        "said": list(Reply.objects.filter(revision__quote=opened.quote).order_by("at", "pk")),
    }
    return render(request, "quotes/customer.html", context)


def _engine(opened: OpenedLink, sheet: Sheet) -> dict[str, Any]:
    """The engine while it is with us: what was found in it, and what that changed about the quote."""
    here = engine_shown(opened)
    return {
        "engine_here": here,
        "findings": reports_shown(opened) if here else [],
        "since_first": since_first(opened.quote, sheet.comparison, request_of(opened.revision)),
    }


urlpatterns = [
    path("q/<str:token>/", show, name="customer-quote"),
    path("q/<str:token>/yes/", say_yes, name="customer-accept"),
    path("q/<str:token>/question/", put_question, name="customer-ask"),
    path("q/<str:token>/no/", say_no, name="customer-decline"),
    path("q/<str:token>/receipt/", receipt, name="customer-receipt"),
    path("q/<str:token>/quote.pdf", quote_pdf, name="customer-pdf"),
    path("q/<str:token>/quote.xlsx", quote_workbook, name="customer-workbook"),
    path("q/<str:token>/receipt.pdf", receipt_pdf, name="customer-receipt-pdf"),
]
