"""Extra work found after the yes, its answer, and the hours worked on a build."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say
from quotes.actions.books.extra_work import answer_extra_work, offer_extra_work
from quotes.actions.books.worked_hours import correct_hours, enter_hours
from quotes.actions.refused import Refused
from quotes.forms.books.build import AnswerForm
from quotes.forms.books.refusing import refuse
from quotes.models import ExtraWork, WorkedHours
from quotes.queries.books.build import build_account
from quotes.views.books.build_page import correct_form, extra_form, hours_form, render_build, the_build
from quotes.views.books.looked_up import looked_up
from quotes.views.books.parts import money_options
from quotes.views.every_request.person import signed_in


@require_POST
def offer_extra(request: HttpRequest, pk: int) -> HttpResponse:
    """Price extra work; the customer's answer comes later."""
    build = the_build(pk)
    currency, decimals, today = money_options().values()
    if looking := looked_up(request):
        form = extra_form(None, currency, decimals, today, looking.begun)
        return render_build(request, build, extra_form=form, listed=looking.listed)
    form = extra_form(request.POST, currency, decimals, today)
    if not form.is_valid():
        return render_build(request, build, extra_form=form)
    head = form.head.cleaned_data
    try:
        made = offer_extra_work(
            build=build,
            words=head["words"],
            risk_if_declined=head["risk"],
            lines=form.value(),
            by=signed_in(request),
            now=timezone.now(),
        )
    except (Refused, ValidationError) as wrong:
        refuse(form.head, wrong)
        return render_build(request, build, extra_form=form)
    messages.success(
        request, say("{number} is kept. Ask the customer before the work is done.", number=made.number)
    )
    return _back(pk, "extra-work")


def _back(pk: int, place: str) -> HttpResponse:
    return redirect(f"{reverse('build-money', args=[pk])}#{place}")


@require_POST
def answer_extra(request: HttpRequest, pk: int, extra: int) -> HttpResponse:
    """Write down what the customer said, who, and how."""
    row = get_object_or_404(ExtraWork.objects.select_related("build__quote"), pk=extra, build_id=pk)
    form = AnswerForm(request.POST, prefix=f"answer-{row.pk}")
    if not form.is_valid():
        return render_build(request, the_build(pk), answer=(row.pk, form))
    told = form.cleaned_data
    try:
        answer_extra_work(
            extra=row,
            accepted=told["accepted"] == "yes",
            name=told["name"],
            how=form.how_in_words(),
            note=told["note"],
            by=signed_in(request),
            now=timezone.now(),
        )
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return render_build(request, the_build(pk), answer=(row.pk, form), refused=_said(wrong))
    return _back(pk, "extra-work")


def _said(wrong: Refused | ValidationError) -> str:
    """An answer that came too late has no form any more to stand at."""
    return str(wrong) if isinstance(wrong, Refused) else ""


@require_POST
def enter(request: HttpRequest, pk: int) -> HttpResponse:
    """Write down hours."""
    build, on = the_build(pk), timezone.localdate()
    form = hours_form(request.POST, build_account(build, on), on, request.user.pk)
    if not form.is_valid():
        return render_build(request, build, hours_form=form)
    told = form.cleaned_data
    try:
        enter_hours(
            build=build,
            operation=form.operation_code(),
            person=User.objects.get(pk=told["person"]),
            on=told["on"],
            hours=told["hours"],
            note=told["note"],
            by=signed_in(request),
            now=timezone.now(),
        )
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return render_build(request, build, hours_form=form)
    return _back(pk, "hours")


@require_POST
def correct(request: HttpRequest, pk: int, worked: int) -> HttpResponse:
    """Put other hours in the place of those written down."""
    row = get_object_or_404(WorkedHours.objects.select_related("build", "person"), pk=worked, build_id=pk)
    form = correct_form(row, request.POST)
    assert form is not None
    if not form.is_valid():
        return render_build(request, the_build(pk), correcting=row, correct_form=form)
    told = form.cleaned_data
    try:
        correct_hours(
            worked=row, hours=told["hours"], note=told["note"], by=signed_in(request), now=timezone.now()
        )
    except (Refused, ValidationError) as wrong:
        refuse(form, wrong)
        return render_build(request, the_build(pk), correcting=row, correct_form=form)
    return _back(pk, "hours")


urlpatterns = [
    path("invoices/builds/<int:pk>/extra-work/", offer_extra, name="build-extra"),
    path("invoices/builds/<int:pk>/extra-work/<int:extra>/", answer_extra, name="build-extra-answer"),
    path("invoices/builds/<int:pk>/hours/", enter, name="build-hours"),
    path("invoices/builds/<int:pk>/hours/<int:worked>/", correct, name="build-hours-correct"),
]
