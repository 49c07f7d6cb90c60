"""One price list: what it will do, what is held, what is refused; taking it in, and undoing it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.price_list.handing_in import NOT_YET, drop_list, say_yes, set_whole, take_yes_back
from catalogue.actions.refused import Refused as CatalogueRefused
from catalogue.calc.said import say
from catalogue.models import ListState, PriceList
from catalogue.queries.price_lists import last_in_force, own_currency
from quotes.actions.refused import Refused
from quotes.forms.price_lists import CheckForm
from quotes.imports.taking_prices import ask_check, ask_held, ask_take, ask_undo, work_of
from quotes.queries.price_list_effect import effect_of
from quotes.views.background import told
from quotes.views.every_request.person import signed_in
from quotes.views.price_lists.shown import BEFORE_AFTER, BEFORE_AFTER_PAST, shown


def price_list(request: HttpRequest, pk: int) -> HttpResponse:
    """What was found, and what may be done next."""
    row = _row(pk)
    return _page(request, row, _form(row))


def _row(pk: int) -> PriceList:
    people = ("supplier", "handed_in_by", "applied_by", "undone_by")
    return get_object_or_404(PriceList.objects.defer("held").select_related(*people), pk=pk)


def _form(row: PriceList, data: Any = None) -> CheckForm:
    today = timezone.localdate()
    return CheckForm(data, today=today, initial={"on": row.in_force_from or today, "whole": row.whole})


def _page(request: HttpRequest, row: PriceList, form: CheckForm, *, status: int = 200) -> HttpResponse:
    work, last = work_of(row.pk), last_in_force(row.supplier_id)
    busy = work is not None and work.is_open
    is_last = row.state == ListState.IN_FORCE and last is not None and last.pk == row.pk
    has_file = PriceList.to_be_had().filter(pk=row.pk).exists()
    past = row.state in (ListState.IN_FORCE, ListState.UNDONE)
    before, after = BEFORE_AFTER_PAST if past else BEFORE_AFTER
    context = {
        "row": row,
        "past": past,
        "before": say(before),
        "after": say(after),
        "later": last if row.state == ListState.IN_FORCE and not is_last else None,
        "outdated": last if row.state == ListState.CHECKED and last and last.pk != row.after_id else None,
        "work": told(work) if work and (busy or work.is_failed) else None,
        "busy": busy,
        "form": form,
        "shown": shown(row, request.GET.get("held", "")),
        "seen": seen_of(row),
        "own": own_currency(),
        "waits": row.state in (ListState.HANDED_IN, ListState.CHECKED),
        "may_undo": row.state == ListState.DUE or is_last,
        "not_yet": row.state in NOT_YET and not busy,
        "held_to_take": is_last and has_file and not busy,
        "has_file": has_file,
        "today": timezone.localdate(),
    }
    return render(request, "quotes/prices/one.html", context, status=status)


@require_safe
def effect(request: HttpRequest, pk: int) -> HttpResponse:
    """Whose margin it would move: worked out when it is looked at, since quotes are made meanwhile."""
    row = _row(pk)
    found = effect_of(row, timezone.localdate()) if row.state == ListState.CHECKED else None
    whole = "quotes/prices/effect_page.html"
    template = "quotes/prices/effect.html" if request.headers.get("HX-Request") else whole
    return render(request, template, {"row": row, "effect": found})


@require_POST
def check(request: HttpRequest, pk: int) -> HttpResponse:
    """Has it held against what stands, from the day given."""
    row = _row(pk)
    form = _form(row, request.POST)
    if not form.is_valid():
        return _page(request, row, form, status=422)

    def act() -> None:
        kept = set_whole(pk=pk, whole=form.cleaned_data["whole"])
        ask_check(price_list=kept, on=form.cleaned_data["on"], by=signed_in(request))

    return _done(request, pk, act)


@require_POST
def yes(request: HttpRequest, pk: int) -> HttpResponse:
    """The owner's yes to held prices: to one, to all, or taken back. What is in force takes them in."""
    given, by, row = request.POST, signed_in(request), _row(pk)
    if given.get("back"):
        return _done(request, pk, lambda: take_yes_back(pk=pk, key=given["back"]))
    keys = None if given.get("all") else given.getlist("key")
    if row.state == ListState.IN_FORCE:
        return _done(request, pk, lambda: ask_held(price_list=row, keys=keys, by=by))
    return _done(request, pk, lambda: say_yes(pk=pk, keys=keys, by=by, now=timezone.now()))


@require_POST
def take(request: HttpRequest, pk: int) -> HttpResponse:
    """Takes it in as it was shown: another yes meanwhile, or another check, and it is looked at again."""
    row = _row(pk)

    def act() -> None:
        if not row.checked_at or request.POST.get("seen") != seen_of(row):
            raise Refused(say("It was checked again, or a yes was said, since you looked: look at it now."))
        ask_take(price_list=row, on=timezone.localdate(), by=signed_in(request))

    return _done(request, pk, act)


def seen_of(row: PriceList) -> str:
    """What tells the state of a checked list that was looked at."""
    return f"{row.checked_at:%Y%m%dT%H%M%S.%f}-{row.counts.get('yes', 0)}" if row.checked_at else ""


@require_POST
def undo(request: HttpRequest, pk: int) -> HttpResponse:
    """Takes it out again as a whole."""
    return _done(request, pk, lambda: ask_undo(price_list=_row(pk), by=signed_in(request)))


@require_POST
def drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Throws away a file that was not taken in."""
    return _done(request, pk, lambda: drop_list(pk=pk))


def _done(request: HttpRequest, pk: int, act: Callable[[], object]) -> HttpResponse:
    """Does it and shows the list again; what was refused is said there."""
    try:
        act()
    except (CatalogueRefused, Refused) as refused:
        messages.error(request, str(refused))
    return redirect("price-list", pk)
