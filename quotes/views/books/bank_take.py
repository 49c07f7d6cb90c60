"""The lines of a bank's file: matched, ticked and taken as payments, or put aside with a note."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from decimal import Decimal

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_count
from quotes.actions.books.bank import Chosen, put_aside, take_back, take_bank_lines
from quotes.actions.refused import Refused
from quotes.forms.books.bank import AsideForm, ticked
from quotes.forms.books.fields import Payer
from quotes.models import BankFile, BankLineState, Customer
from quotes.queries.books.bank import Proposal, file_lines, known_in, proposals
from quotes.queries.books.customer_account import open_items
from quotes.queries.books.payers import payers_offered
from quotes.views.every_request.person import signed_in

SURE = "sure"


def plan_digest(found: Iterable[Proposal]) -> str:
    """The fingerprint of what is proposed, so that what is taken is what was looked at."""
    return hashlib.sha256(repr([one.match for one in found]).encode()).hexdigest()


def lines_page(
    request: HttpRequest,
    file: BankFile,
    *,
    faults: Mapping[int, str] | None = None,
    fault: str = "",
    aside: AsideForm | None = None,
) -> HttpResponse:
    """Every line of a file that was taken in; those that wait first, each with what it may settle."""
    found = proposals(file)
    told = request.POST if request.method == "POST" else None
    lines = list(file_lines(file))
    picked = set(told.getlist("take")) if told else set()
    rows = [
        {
            "line": one.line,
            "match": one.match,
            "ticked": str(one.line.pk) in picked if told else one.match.certainty == SURE,
            "payer": told.get(f"payer-{one.line.pk}", "") if told else "",
            "fault": (faults or {}).get(one.line.pk, ""),
        }
        for one in found
    ]
    context = {
        "file": file,
        "rows": rows,
        "plan": plan_digest(found),
        "taken": [line for line in lines if line.state == BankLineState.TAKEN],
        "put_aside": [line for line in lines if line.state == BankLineState.PUT_ASIDE],
        "known": known_in(file),
        "fault": fault,
        "aside": aside or AsideForm(),
        "payers": payers_offered(),
    }
    return render(request, "quotes/books/bank_file.html", context)


@require_POST
def bank_take(request: HttpRequest, pk: int) -> HttpResponse:
    """Takes the ticked lines as payments, all or none."""
    file = get_object_or_404(BankFile.objects.select_related("kept_by"), pk=pk)
    found = proposals(file)
    try:
        wanted = ticked(request.POST, "take")
    except ValidationError as wrong:
        return lines_page(request, file, fault=wrong.messages[0])
    if not wanted:
        return lines_page(request, file, fault=say("No line is ticked: tick those that are to be taken."))
    if request.POST.get("plan") != plan_digest(found):
        return lines_page(
            request, file, fault=say("The accounts have moved since you looked: look once more.")
        )
    picked = [one for one in found if one.line.pk in wanted]
    chosen, faults = _chosen(request, picked)
    if faults:
        return lines_page(
            request, file, faults=faults, fault=say("Nothing was taken: look at the lines below.")
        )
    try:
        taken = take_bank_lines(file=file, chosen=chosen, by=signed_in(request), now=timezone.now())
    except Refused as refused:
        return lines_page(request, file, fault=str(refused))
    messages.success(
        request, say_count("{count} payment is taken.", "{count} payments are taken.", len(taken))
    )
    return redirect("bank-file", pk)


def _chosen(request: HttpRequest, picked: Iterable[Proposal]) -> tuple[list[Chosen], dict[int, str]]:
    """Whose payment each line is: as proposed, or of the customer who was typed in."""
    chosen: list[Chosen] = []
    faults: dict[int, str] = {}
    given: dict[int, Decimal] = {}
    for one in picked:
        typed = request.POST.get(f"payer-{one.line.pk}", "").strip()
        try:
            if typed or one.match.customer_pk is None:
                chosen.append(_by_hand(one, typed, given))
            else:
                settles = {part.item_pk: part.amount for part in one.match.settles}
                chosen.append(Chosen(one.line.pk, one.match.customer_pk, settles))
        except ValidationError as wrong:
            faults[one.line.pk] = wrong.messages[0]
            continue
        for item, amount in chosen[-1].settles.items():
            given[item] = given.get(item, ZERO) + amount
    return chosen, faults


def _by_hand(one: Proposal, typed: str, given: Mapping[int, Decimal]) -> Chosen:
    """A payment of the customer named, which settles the oldest due first; `given` is settled before."""
    customer: Customer = Payer(required=True).clean(typed)
    rest, settles = one.line.amount, {}
    for item in open_items(customer=customer).owed_to_us():
        part = min(rest, item.open_amount - given.get(item.pk, ZERO))
        if part > ZERO:
            settles[item.pk] = part
            rest -= part
    return Chosen(one.line.pk, customer.pk, settles)


@require_POST
def bank_aside(request: HttpRequest, pk: int) -> HttpResponse:
    """Puts the ticked lines aside, because they are no customer's payments."""
    file = get_object_or_404(BankFile.objects.select_related("kept_by"), pk=pk)
    form = AsideForm(request.POST)
    try:
        wanted = ticked(request.POST, "take")
    except ValidationError as wrong:
        return lines_page(request, file, fault=wrong.messages[0])
    if not wanted:
        return lines_page(request, file, fault=say("No line is ticked: tick those to put aside."), aside=form)
    if not form.is_valid():
        return lines_page(request, file, aside=form)
    own = set(file.lines.filter(pk__in=wanted).values_list("pk", flat=True))
    count = put_aside(lines=own, note=form.cleaned_data["note"], now=timezone.now())
    messages.success(request, say("{count} put aside.", count=count))
    return redirect("bank-file", pk)


@require_POST
def bank_wait(request: HttpRequest, pk: int, line: int) -> HttpResponse:
    """Lets a line wait again that was put aside."""
    file = get_object_or_404(BankFile, pk=pk)
    take_back(lines=file.lines.filter(pk=line).values_list("pk", flat=True))
    return redirect("bank-file", pk)


urlpatterns = [
    path("books/bank/<int:pk>/take/", bank_take, name="bank-take"),
    path("books/bank/<int:pk>/aside/", bank_aside, name="bank-aside"),
    path("books/bank/<int:pk>/wait/<int:line>/", bank_wait, name="bank-wait"),
]
