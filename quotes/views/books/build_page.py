"""The money of a build on its page: what is agreed, found, worked, held, asked for, and what comes next."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone

from catalogue.calc.said import say
from quotes.forms.books.build import (
    OTHER_WORK,
    AnswerForm,
    CorrectHoursForm,
    ExtraForm,
    HoursForm,
    PartOfItForm,
)
from quotes.forms.books.extra_lines import Begun
from quotes.forms.books.fields import offer
from quotes.forms.figures import as_of
from quotes.models import Acceptance, ExtraWorkState, WorkedHours
from quotes.queries.books.account import BuildAccount
from quotes.queries.books.build import build_account
from quotes.queries.books.costs import build_cost, work_in_progress
from quotes.queries.books.day import codes_of
from quotes.queries.people import ROLES, name_of
from quotes.queries.rights import may
from quotes.views.books.build_acts import next_acts
from quotes.views.books.parts import payers


def the_build(pk: int) -> Acceptance:
    rows = Acceptance.objects.select_related("quote__customer", "quote__engine", "revision", "called_off")
    return get_object_or_404(rows.defer("quote__request"), pk=pk)


def render_build(request: HttpRequest, build: Acceptance, **more: Any) -> HttpResponse:
    """The page; `more` brings a form with what was typed into it."""
    on = timezone.localdate()
    account = build_account(build, on)
    takes_money = may(request.user, "money of a build")
    acts = next_acts(account) if takes_money else []
    entries = WorkedHours.objects.of_build(build.pk)
    context = {
        "build": build,
        "called_off": getattr(account.build, "called_off", None),
        "may_call_off": takes_money and not (build.done_at or account.finally_invoiced),
        "account": account,
        "takes_money": takes_money,
        "acts": acts,
        "cost": build_cost(build) if may(request.user, "what a build costs us") else None,
        "in_progress": work_in_progress(build) if may(request.user, "what a build costs us") else None,
        "extras": [(row, _answer_form(row.pk, row.state, more)) for row in account.extra_work],
        "worked": list(entries.select_related("person").order_by("-on", "-pk")),
        "worked_on": [row for row in account.hours if row.clocked],
        "not_yet": [row for row in account.hours if not row.clocked],
        "names": {row.operation: row.name for row in account.hours},
        **_forms(request, build, account, on),
        **(payers() if takes_money else {}),
        **more,
    }
    return render(request, "quotes/books/build.html", context)


def _forms(request: HttpRequest, build: Acceptance, account: BuildAccount, on: date) -> dict[str, Any]:
    """The forms before anybody has typed."""
    correcting = request.GET.get("hours", "")
    worked = (
        WorkedHours.objects.of_build(build.pk).filter(pk=int(correcting)).first()
        if correcting.isdecimal()
        else None
    )
    return {
        "extra_form": extra_form(None, account.currency, account.decimals, on),
        "hours_form": hours_form(None, account, on, request.user.pk),
        "part_form": PartOfItForm(prefix="part", initial={"payer": build.quote.customer}),
        "correcting": worked,
        "correct_form": correct_form(worked),
    }


def extra_form(data: Any, currency: str, decimals: int, on: date, begun: Begun | None = None) -> ExtraForm:
    codes = [(code, code) for code in codes_of(on)]
    return ExtraForm(data, currency=currency, decimals=decimals, tax_codes=codes, begun=begun)


def hours_form(data: Any, account: BuildAccount, on: date, person: int | None) -> HoursForm:
    """Operations of the build, and everybody who works here."""
    form = HoursForm(data, prefix="hours", initial={"on": on, "person": person})
    done = [(row.operation, row.name) for row in account.hours if row.operation]
    offer(form, "operation", [("", say("choose")), *done, (OTHER_WORK, say("other bench work"))])
    people = User.objects.filter(is_active=True, groups__name__in=ROLES).distinct().order_by("pk")
    offer(form, "person", [(str(user.pk), name_of(user)) for user in people])
    as_of(form, on)
    return form


def correct_form(worked: WorkedHours | None, data: Any = None) -> CorrectHoursForm | None:
    if worked is None:
        return None
    return CorrectHoursForm(data, prefix="correct", initial={"hours": worked.hours, "note": worked.note})


def _answer_form(pk: int, state: str, more: dict[str, Any]) -> AnswerForm | None:
    """The form for the answer to extra work that waits; what was typed into it stays."""
    if state != ExtraWorkState.OFFERED:
        return None
    typed: tuple[int, AnswerForm] | None = more.get("answer")
    return typed[1] if typed and typed[0] == pk else AnswerForm(prefix=f"answer-{pk}")
