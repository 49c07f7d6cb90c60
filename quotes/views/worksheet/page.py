"""The worksheet of a quote: one option at a time, with every edit the desk may make to it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.drafts import save_draft
from quotes.actions.refused import Refused, StaleDraft
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.request import Request
from quotes.calc.bench.again.line_changes import LineChanges
from quotes.calc.sheet.values import Comparison, Option
from quotes.forms.edits import edits_of
from quotes.forms.faults import homeless_in_words
from quotes.forms.hand import HandForm, hand_forms
from quotes.models import Quote, Workshop
from quotes.queries import comparison as comparisons
from quotes.queries.bench.again.worked_again import since_first
from quotes.queries.bench.ages.lifed_parts import moved_since
from quotes.queries.rights import may
from quotes.queries.sheets import request_of
from quotes.views.every_request.form_marks import version_of
from quotes.views.every_request.person import signed_in
from quotes.views.part_search import found_listed
from quotes.views.worksheet.edits import edited, goes_with, still_in
from quotes.views.worksheet.issue_part import issue_context
from quotes.views.worksheet.running import Running, running, without
from quotes.views.worksheet.sheet import component_names, hold_of, worked_sheet


@dataclass(slots=True)
class OpenedQuote:
    """A quote opened at one option. `stored` is its request, `asked` the same as of today."""

    quote: Quote
    tier: str
    stored: Request
    asked: Request
    refuses_unsafe: bool
    comparison: Comparison | None = None
    faults: list[str] = field(default_factory=list)


def worksheet(request: HttpRequest, pk: int) -> HttpResponse:
    """The worked sheet of one option; a post changes it and shows it again."""
    quote = get_object_or_404(Quote.objects.joined(), pk=pk)
    opened = open_sheet(quote, request.POST.get("option") or request.GET.get("option", ""))
    if request.method == "POST" and opened.comparison is not None:
        return _change(request, opened, opened.comparison)
    return render_sheet(request, opened)


def open_sheet(quote: Quote, tier: str, request: Request | None = None) -> OpenedQuote:
    """The quote worked out as of today, at the option asked for or the first one.

    `request` stands in for the stored one where it is not kept yet.
    """
    stored = request or request_of(quote)
    asked = stored.model_copy(update={"on": timezone.localdate()})
    unsafe = Workshop.objects.get_or_default().refuses_unsafe
    opened = OpenedQuote(quote, tier if tier in asked.tiers else asked.tiers[0], stored, asked, unsafe)
    try:
        opened.comparison = comparisons.comparison_for(asked)
    except BadRequest as bad:
        opened.faults = [homeless_in_words(fault) for fault in bad.faults]
    except LookupError as missing:
        opened.faults = [f"{missing}."]
    return opened


def _change(request: HttpRequest, opened: OpenedQuote, comparison: Comparison) -> HttpResponse:
    """Make the edit that was posted, keep it and show the sheet. A fault is not kept, and stays typed."""
    option = comparison.option(opened.tier)
    made = edited(request.POST, opened.stored, option, refuses_unsafe=opened.refuses_unsafe)
    if made.request is None:
        return render_sheet(request, opened, forms=made.forms, refused=made.refused)
    after = open_sheet(opened.quote, opened.tier, made.request)
    if refused := goes_with(option, made.left) or _against(after, made.left):
        return render_sheet(request, opened, refused=refused)
    try:
        kept = save_draft(
            quote=opened.quote,
            request=made.request,
            expected_version=version_of(request),
            by=signed_in(request),
            now=timezone.now(),
        )
    except StaleDraft as stale:
        again = Quote.objects.joined().get(pk=opened.quote.pk)
        return render_sheet(request, open_sheet(again, opened.tier), stale=stale)
    except Refused as refused_:
        return render_sheet(request, opened, refused=str(refused_))
    unsound = made.forms or made.refused
    if not request.headers.get("HX-Request") and not unsound:
        return redirect(f"{reverse('quote', args=[kept.pk])}?option={opened.tier}")
    after.quote = Quote.objects.joined().get(pk=kept.pk)
    return render_sheet(
        request, after, forms=made.forms, applied=made.applied, was=option, refused=made.refused
    )


def _against(after: OpenedQuote, left: tuple[str, ...]) -> str:
    """What speaks against an edit once it is worked out, or nothing."""
    if after.comparison is None:
        return " ".join(after.faults)
    return still_in(after.comparison.option(after.tier), left)


def render_sheet(
    request: HttpRequest,
    opened: OpenedQuote,
    *,
    forms: dict[str, HandForm] | None = None,
    applied: str = "",
    was: Option | None = None,
    **more: Any,
) -> HttpResponse:
    """The page, or with a script only the part that changes. Small forms keep what was typed into them."""
    told = _facts(request, opened) | issue_context(request, opened.quote, opened.comparison)
    asking = {} if applied else request.POST
    told["asks"] = request.GET.get("refuse", "") or asking.get("refuse", "")
    told["changing"] = request.GET.get("line", "") or asking.get("line", "")
    edits = edits_of(opened.stored, opened.tier)
    told |= hand_forms(request.POST, edits, told["changing"], but=applied) | (forms or {}) | more
    if "take-listed" not in asking:
        told["listed"] = found_listed(asking.get("q", ""))
    if opened.comparison is not None:
        told["changes"] = _since_first(opened, opened.comparison)
        told["running"] = running(opened.comparison.option(opened.tier), was)
        told["without"] = _without(opened, opened.comparison.option(opened.tier), told["asks"])
        told["worked"] = worked_sheet(
            opened.comparison,
            opened.asked,
            opened.tier,
            component_names(opened.asked.engine.type),
            refuses_unsafe=opened.refuses_unsafe,
        )
    part = request.headers.get("HX-Target") == "worked"
    return render(request, "quotes/worksheet/worked.html" if part else "quotes/worksheet.html", told)


def _facts(request: HttpRequest, opened: OpenedQuote) -> dict[str, Any]:
    quote, comparison = opened.quote, opened.comparison
    options = comparison.options if comparison else ()
    return {
        "quote": quote,
        "address": reverse("quote", args=[quote.pk]),
        "version": quote.version,
        "standing": standing(quote),
        "tier": opened.tier,
        "comparison": comparison,
        "others": [option for option in options if option.tier != opened.tier],
        "faults": opened.faults,
        "moved": "" if quote.accepted_at else moved_since(quote.engine, opened.asked.engine),
        "may_edit": quote.accepted_at is None and quote.closed_at is None,
        "sees_margin": may(request.user, "margin"),
    }


def _without(opened: OpenedQuote, option: Option, component: str) -> tuple[Running, ...]:
    """What leaving a must line would do, while its form stands open."""
    hold = hold_of(option, component or None, refuses_unsafe=opened.refuses_unsafe)
    return without(opened.asked, option, component) if hold == "signed" else ()


def _since_first(opened: OpenedQuote, comparison: Comparison) -> LineChanges | None:
    """What changed about the option shown, against the quote from before the strip-down."""
    found = since_first(opened.quote, comparison, opened.asked)
    options = found.options if found else ()
    return next((changes for changes in options if changes.tier == opened.tier), None)


def standing(quote: Quote) -> str:
    """Where a quote stands, in the words of its strip."""
    if quote.accepted_at:
        return say("accepted")
    if quote.closed_at:
        return say("closed")
    if quote.latest is None:
        return say("not issued")
    if quote.edited_at > quote.latest.issued_at:
        return say("revision {number}, draft", number=quote.latest.index + 1)
    return say("revision {number}, issued", number=quote.latest.index)


urlpatterns = [path("quotes/<int:pk>/", worksheet, name="quote")]
