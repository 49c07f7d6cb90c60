"""A draft document: changed, worked out, kept, issued or dropped."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say
from catalogue.views.untouched import keeps_theirs
from quotes.actions.books.drafts import drop_invoice_draft, save_invoice_draft, start_sale
from quotes.actions.books.issuing import issue_invoice
from quotes.actions.books.refused import DraftFaults
from quotes.actions.books.refused_months import EarlierDay
from quotes.actions.refused import Refused, StaleDraft
from quotes.calc.invoice.draft import Draft
from quotes.forms.books.draft import ConsentForm, EarlierDayForm
from quotes.forms.books.sale import SaleForm
from quotes.models import Invoice, InvoiceDraft
from quotes.queries.books.build import build_account
from quotes.queries.books.draft_lines import by_labour
from quotes.queries.rights import may
from quotes.views.books.draft_page import OpenedDraft, open_draft, proposals, render_draft
from quotes.views.books.parts import money_options, payers
from quotes.views.every_request.form_marks import version_of
from quotes.views.every_request.person import signed_in

Words = tuple[ConsentForm, EarlierDayForm]


def invoice_draft(request: HttpRequest, pk: int) -> HttpResponse:
    """The draft's page. `do` says what a post is for: work it out, keep it, add to it."""
    row = _row(pk)
    if gone := _gone(request, row):
        if request.POST.get("do", "work") != "work" and row.dropped_at is None:
            messages.error(request, say("That draft was issued meanwhile: what you typed last is not in it."))
        return gone
    if request.method != "POST":
        return render_draft(request, open_draft(row))
    do = request.POST.get("do", "work")
    opened = open_draft(row, request.POST, adding=do == "add-line")
    if do == "work" or opened.content is None:
        return render_draft(request, opened)
    return _keep(request, opened, do) or redirect("invoice-draft", pk)


def _row(pk: int) -> InvoiceDraft:
    rows = InvoiceDraft.objects.select_related(
        "customer", "build__quote__engine", "build__quote__customer", "build__revision", "original"
    )
    return get_object_or_404(rows, pk=pk)


def _gone(request: HttpRequest, row: InvoiceDraft) -> HttpResponse | None:
    """Where a draft that is no draft any more leads to."""
    if issued := Invoice.objects.filter(draft=row).only("pk").first():
        return redirect("invoice", issued.pk)
    if row.dropped_at is not None:
        messages.error(request, say("That draft was dropped: nothing of it was issued."))
        return redirect("invoice-list")
    return None


def _keep(request: HttpRequest, opened: OpenedDraft, do: str) -> HttpResponse | None:
    """Keep what was typed; the page again where it can't be."""
    assert opened.content is not None
    try:
        save_invoice_draft(
            draft=opened.draft,
            content=_with(opened, opened.content, do),
            expected_version=version_of(request),
            by=signed_in(request),
            now=timezone.now(),
            supplied_on=opened.form.head.cleaned_data.get("supplied_on"),
            customer=opened.form.payer(),
        )
    except StaleDraft as stale:
        return render_draft(request, opened, stale=stale, version=stale.version)
    except Refused as refused:
        return render_draft(request, opened, refused=_refused(opened, refused))
    except ValidationError as wrong:
        return render_draft(request, opened, refused=" ".join(wrong.messages))
    return None


def _with(opened: OpenedDraft, content: Draft, do: str) -> Draft:
    """The content with what a button beside `keep` adds to it."""
    what, _, which = do.partition(":")
    if what == "add" and which.isdecimal():
        found = [each.line for each in proposals(opened)[int(which) : int(which) + 1]]
        return content.model_copy(update={"lines": (*content.lines, *found)})
    if what == "labour" and which in ("quoted", "clocked") and opened.draft.build is not None:
        accounts = {which: build_account(opened.draft.build, timezone.localdate(), which)}  # type: ignore[arg-type]
        return by_labour(content, accounts, which)
    return content


@require_POST
def issue(request: HttpRequest, pk: int) -> HttpResponse:
    """Keep what was typed, then issue it: the number is given and nothing changes any more."""
    row = _row(pk)
    if gone := _gone(request, row):
        return gone
    opened = open_draft(row, request.POST)
    words = ConsentForm(request.POST), EarlierDayForm(request.POST)
    sound = not any(form.errors for form in words)
    if not opened.form.says_why() or opened.content is None or not sound:
        return render_draft(request, opened, **_asked(opened, words))
    if again := _keep(request, opened, "keep"):
        return again
    given = {name: value for form in words for name, value in form.cleaned_data.items()}
    try:
        made = issue_invoice(draft=row, by=signed_in(request), now=timezone.now(), **given)
    except Refused as refused:
        opened = replace(opened, draft=_row(pk))
        early = isinstance(refused, EarlierDay) and may(request.user, "let something pass")
        asked = _asked(opened, words, early=early)
        return render_draft(request, opened, refused=_refused(opened, refused), **asked)
    messages.success(request, say("{number} is issued.", number=made.number))
    return redirect("invoice", made.pk)


def _asked(opened: OpenedDraft, words: Words, *, early: bool = False) -> dict[str, Any]:
    """What the owner is asked for in writing: where it is needed, or was written already."""
    consent, earlier = words
    wanted = early or earlier["earlier_because"].value()
    return {
        "consent_form": consent if opened.beyond or not consent.is_valid() else None,
        "earlier_form": earlier if wanted else None,
    }


def _refused(opened: OpenedDraft, refused: Refused) -> str:
    """Faults of single lines stand at their fields; the rest, or that there are such, at the head."""
    if not isinstance(refused, DraftFaults):
        return str(refused)
    rest = opened.form.say_faults(refused.faults)
    return " ".join(rest) or say("Not yet: the lines below say what is wrong.")


@require_POST
def drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Drop the draft: no number was used, so none is missing."""
    row = _row(pk)
    try:
        drop_invoice_draft(draft=row, by=signed_in(request), now=timezone.now())
    except Refused as refused:
        messages.error(request, str(refused))
        return redirect("invoice-draft", pk)
    messages.success(
        request,
        say(
            "The {kind} for {customer} is dropped; nothing was issued.",
            kind=row.get_kind_display(),
            customer=row.customer,
        ),
    )
    return redirect("build-money", row.build_id) if row.build_id else redirect("invoice-list")


def new_sale(request: HttpRequest) -> HttpResponse:
    """An invoice without a build: who pays, and the first line."""
    options = money_options()
    form = SaleForm(request.POST or None, **options)
    if request.method != "POST" or not form.is_valid():
        told: dict[str, Any] = {"form": form, **payers()}
        return render(request, "quotes/books/sale.html", told)
    draft = start_sale(customer=form.payer(), lines=[form.line()], by=signed_in(request), now=timezone.now())
    return redirect(reverse("invoice-draft", args=[draft.pk]))


urlpatterns = [
    path("invoices/new/", new_sale, name="invoice-new"),
    path("invoices/drafts/<int:pk>/", keeps_theirs(invoice_draft), name="invoice-draft"),
    path("invoices/drafts/<int:pk>/issue/", issue, name="invoice-issue"),
    path("invoices/drafts/<int:pk>/drop/", drop, name="invoice-drop"),
]
