"""Extra work from the bench: what is left of the limit, each offer with its answer, and a new one."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say
from catalogue.views.file_answer import PDF, file_answer
from quotes.actions.books.extra_work import About, answer_extra_work, offer_extra_work, withdraw_extra_work
from quotes.actions.refused import Refused
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.sheet.words import first_large
from quotes.documents.bench.extra_work import extra_work_context, extra_work_pdf
from quotes.forms.bench.extra_work import BenchExtraForm
from quotes.forms.books.build import AnswerForm
from quotes.forms.books.extra_lines import Begun
from quotes.forms.books.refusing import refuse
from quotes.models import Acceptance, ExtraWork, ExtraWorkState, FindingSeen, Job
from quotes.models.books.build import ExtraWorkQuerySet
from quotes.queries.bench.again.committed import committed_of, promised_on, spent_of
from quotes.queries.bench.again.declined import declined_of
from quotes.queries.bench.again.extra_sheet import extra_sheet
from quotes.queries.books.day import codes_of
from quotes.queries.engines import known_catalogue
from quotes.queries.listed_line import bought_of
from quotes.views.books.build_page import the_build
from quotes.views.books.listed import currency_now, decimals_now
from quotes.views.books.looked_up import looked_up
from quotes.views.books.parts import money_options
from quotes.views.every_request.person import signed_in


@require_safe
def listed(request: HttpRequest, pk: int) -> HttpResponse:
    """The build's extra work, what is committed against the limit, and what was declined."""
    build = the_build(pk)
    rows = list(offers().filter(build=build).order_by("index"))
    job = Job.objects.filter(quote=build.quote_id).select_related("quote__acceptance__revision").first()
    context = {
        **_strip(build),
        "committed": committed_of(build, rows),
        "spent": spent_of(build, decimals_now()),
        "rows": rows,
        "declined": declined_of(job) if job else (),
    }
    return render(request, "quotes/bench/extra_work_list.html", context)


def new(request: HttpRequest, pk: int) -> HttpResponse:
    """Offer extra work, or do it within the limit where nobody need be asked."""
    build = the_build(pk)
    catalogue = known_catalogue(build.quote.engine.type_code)
    looking = looked_up(request)
    typed = request.POST if request.method == "POST" and not looking else None
    form = _form(typed, build, catalogue, looking.begun if looking else None)
    if typed is not None and form.is_valid():
        try:
            made = _offered(request, build, form, catalogue)
        except (Refused, ValidationError) as wrong:
            refuse(form.head, wrong)
        else:
            messages.success(request, _how_it_stands(made))
            return redirect("extra-work", made.pk)
    context = {**_strip(build), "form": form, "committed": committed_of(build)}
    context["listed"] = looking.listed if looking else None
    return render(request, "quotes/bench/extra_work_new.html", context)


def _how_it_stands(made: ExtraWork) -> str:
    if made.state == ExtraWorkState.WITHIN:
        return say("{number} is within the limit; the customer reads of it.", number=made.number)
    return say("{number} waits for the customer.", number=made.number)


def _offered(
    request: HttpRequest, build: Acceptance, form: BenchExtraForm, catalogue: EngineCatalogue | None
) -> ExtraWork:
    head = form.head.cleaned_data
    components = form.head.components()
    known = catalogue.components if catalogue else {}
    hazard = any(known[code].locks_wheel_or_oils_tyre for code in components if code in known)
    finding = FindingSeen.objects.filter(pk=head["finding"]).first() if head["finding"] else None
    touches = tuple(head["touches"])
    return offer_extra_work(
        build=build,
        words=head["words"],
        risk_if_declined=head["risk"],
        lines=form.value(),
        about=About(
            touches=("safety", *touches) if hazard and "safety" not in touches else touches,
            components=components,
            rider_safety=hazard or "safety" in touches,
            new_ready_on=head["new_ready_on"],
            photo=finding.photos.first() if finding else None,
            finding=finding,
        ),
        within_limit="within" in request.POST,
        by=signed_in(request),
        now=timezone.now(),
    )


def _form(
    data: Any, build: Acceptance, catalogue: EngineCatalogue | None, begun: Begun | None
) -> BenchExtraForm:
    codes = [(code, code) for code in codes_of(timezone.localdate())]
    parts = [(one.code, one.name) for one in catalogue.components.values()] if catalogue else []
    seen = FindingSeen.objects.standing().filter(job__quote=build.quote_id)
    return BenchExtraForm(
        data,
        tax_codes=codes,
        components=parts,
        findings=[(str(row.pk), _seen(row, catalogue)) for row in seen],
        begun=begun,
        **_coins(),
    )


def _seen(row: FindingSeen, catalogue: EngineCatalogue | None) -> str:
    """A finding by what was seen and where."""
    known = catalogue.findings.get(row.finding_code) if catalogue else None
    told = (known.name if known else row.words or row.finding_code, place_in_words(row.place))
    return first_large(", ".join(filter(None, told)))


def _coins() -> dict[str, Any]:
    currency, decimals, *_ = money_options().values()
    return {"currency": currency, "decimals": decimals}


def one(request: HttpRequest, pk: int) -> HttpResponse:
    """One offer in full; a post writes down what the customer said."""
    row = get_object_or_404(offers(), pk=pk)
    form = AnswerForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
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
            return redirect("extra-work", pk)
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong)
    context = {
        **_strip(the_build(row.build_id)),
        **extra_work_context(extra_sheet(row, timezone.localdate())),
        "extra": row,
        "form": form,
        "bought": [
            (line, bought_of(line)) for line in map(DraftLine.model_validate, row.lines) if line.supplier
        ],
    }
    return render(request, "quotes/bench/extra_work.html", context)


@require_POST
def withdraw(request: HttpRequest, pk: int) -> HttpResponse:
    """Take an unanswered offer back."""
    try:
        withdraw_extra_work(extra=get_object_or_404(ExtraWork, pk=pk))
    except Refused as refused:
        messages.error(request, str(refused))
    return redirect("extra-work", pk)


@require_safe
def paper(request: HttpRequest, pk: int) -> HttpResponse:
    """The offer on paper, as it stands now."""
    row = get_object_or_404(offers(), pk=pk)
    return drawn(row)


def drawn(row: ExtraWork) -> HttpResponse:
    """The offer as a PDF, with its photo."""
    photo = bytes(row.photo.image.content) if row.photo else None
    content = extra_work_pdf(extra_sheet(row, timezone.localdate()), photo)
    return file_answer(content, f"{row.number.replace('/', '-')}.pdf", PDF)


def offers() -> ExtraWorkQuerySet:
    """Offers with all that a page of one shows."""
    return ExtraWork.objects.select_related(
        "build__quote__customer", "build__quote__engine", "offered_by", "photo__image", "finding"
    ).defer("build__quote__request")


def _strip(build: Acceptance) -> dict[str, Any]:
    return {
        "build": build,
        "job": Job.objects.filter(quote=build.quote_id).first(),
        "currency": currency_now(),
        "decimals": decimals_now(),
        "promised_on": promised_on(build),
    }


urlpatterns = [
    path("bench/builds/<int:pk>/extra-work/", listed, name="extra-work-list"),
    path("bench/builds/<int:pk>/extra-work/new/", new, name="extra-work-new"),
    path("bench/extra-work/<int:pk>/", one, name="extra-work"),
    path("bench/extra-work/<int:pk>/withdraw/", withdraw, name="extra-work-withdraw"),
    path("bench/extra-work/<int:pk>.pdf", paper, name="extra-work-pdf"),
]
