"""The owner's decisions: a proposal approved, a change taken back."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.actions.lives import take_back_change
from catalogue.calc.said import say
from catalogue.models import LifeChange
from quotes.actions.learning.approving import EvidenceMoved, approve_life
from quotes.calc.learning.proposal import Rule
from quotes.forms.books.refusing import refuse
from quotes.forms.learning import ReasonForm
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in
from quotes.views.learning.life import found_life, life_page

RULES: dict[str, Rule] = {"learnt": "learnt", "likelihood": "likelihood"}


@require_POST
def approve(request: HttpRequest, component: str, basis: str) -> HttpResponse:
    """Keep the proposal that was shown; without a reason, or where it moved, the page comes back."""
    life = found_life(component, basis, request.POST.get("type", ""))
    rule = RULES.get(request.POST.get("rule", ""))
    if rule is None:
        raise Http404(f"There is no rule {request.POST.get('rule', '')!r}: {' or '.join(RULES)}.")
    form = ReasonForm(request.POST, prefix=rule)
    if not form.is_valid():
        return life_page(request, life, refused=(rule, form), status=422)
    try:
        approve_life(
            about=life.about,
            rule=rule,
            shown=request.POST.get("shown", ""),
            reason=form.cleaned_data["reason"],
            key=card_key(request),
            by=signed_in(request),
            now=timezone.now(),
        )
    except EvidenceMoved as moved:
        messages.error(request, str(moved))
        return life_page(request, life, refused=(rule, form), status=409)
    except ValidationError as wrong:
        refuse(form, wrong)
        return life_page(request, life, refused=(rule, form), status=422)
    said = say("Approved: every sum reads it from now on. Issued quotes stay as they are.")
    messages.success(request, said)
    return redirect(address(component, basis, life.about.engine_type))


def address(component: str, basis: str, engine_type: str = "") -> str:
    page = reverse("life", args=[component, basis])
    return f"{page}?type={engine_type}" if engine_type else page


@require_POST
def take_back(request: HttpRequest, pk: int) -> HttpResponse:
    """What stood before stands again; without a reason nothing happens and the page says so."""
    change = get_object_or_404(LifeChange, pk=pk, takes_back=None)
    form = ReasonForm(request.POST, prefix=f"back-{pk}")
    try:
        if form.is_valid():
            take_back_change(
                change=change,
                reason=form.cleaned_data["reason"],
                key=card_key(request),
                by=signed_in(request),
                now=timezone.now(),
            )
            messages.success(request, say("Taken back: what stood before stands again."))
        else:
            messages.error(request, say("Not taken back. {why}", why=form.errors["reason"][0]))
    except ValidationError as wrong:
        messages.error(request, say("Not taken back. {why}", why=" ".join(wrong.messages)))
    return redirect(address(change.component, change.basis, change.engine_type))
