"""Extra work on the customer's own page: read it, say yes or no, keep the paper."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes.actions.books.extra_work import answer_extra_work
from quotes.actions.refused import Refused
from quotes.documents.bench.extra_work import extra_work_context
from quotes.forms.bench.extra_work import CustomerAnswerForm
from quotes.forms.books.refusing import refuse
from quotes.models import ExtraWork
from quotes.queries.bench.again.extra_sheet import extra_sheet
from quotes.views.bench.extra_work import drawn, offers
from quotes.views.customer.link import OpenedLink, by_link
from quotes.views.missing_photo import drawn_where_missing


def own_extra(opened: OpenedLink, pk: int) -> ExtraWork | None:
    """The extra work of this link's own build, and no other's."""
    return offers().filter(build__quote=opened.quote, pk=pk).first()


def extra_shown(opened: OpenedLink) -> list[tuple[ExtraWork, str]]:
    """What the customer's page lists: each offer with the address of its own page."""
    if opened.acceptance is None:
        return []
    rows = ExtraWork.objects.filter(build=opened.acceptance).exclude(state="withdrawn").order_by("index")
    return [
        (row, reverse("customer-extra", args=[opened.token, row.pk]))
        for row in rows.select_related("build__quote")
    ]


@by_link
def show(request: HttpRequest, opened: OpenedLink, pk: int) -> HttpResponse:
    """One offer; a post answers it."""
    row = own_extra(opened, pk)
    if row is None:
        return render(request, "quotes/customer_gone.html", status=404)
    data = request.POST if request.method == "POST" else None
    form = CustomerAnswerForm(data, rider_safety=row.rider_safety)
    refused = ""
    if form.is_bound and form.is_valid():
        try:
            _answer(row, form)
            return redirect(reverse("customer-extra", args=[opened.token, pk]) + "#answer")
        except Refused as said:
            refused, row = str(said), own_extra(opened, pk) or row
        except ValidationError as wrong:
            refuse(form, wrong)
    context = {
        **extra_work_context(extra_sheet(row, timezone.localdate())),
        "opened": opened,
        "extra": row,
        "form": form,
        "refused": refused,
        "photo": reverse("customer-extra-photo", args=[opened.token, pk]) if row.photo_id else "",
    }
    return render(request, "quotes/bench/customer_extra.html", context)


def _answer(row: ExtraWork, form: CustomerAnswerForm) -> None:
    given = form.cleaned_data
    answer_extra_work(
        extra=row,
        accepted=given["answer"] == "yes",
        name=given["name"],
        how=form.how(),
        note=given["note"],
        by=None,
        now=timezone.now(),
    )


@by_link
@require_safe
def paper(request: HttpRequest, opened: OpenedLink, pk: int) -> HttpResponse:
    """The offer as a PDF."""
    row = own_extra(opened, pk)
    return drawn(row) if row else render(request, "quotes/customer_gone.html", status=404)


@by_link
@drawn_where_missing
@require_safe
def photo(request: HttpRequest, opened: OpenedLink, pk: int) -> HttpResponse:
    """The photo of what was found."""
    row = own_extra(opened, pk)
    if row is None or row.photo is None:
        return render(request, "quotes/customer_gone.html", status=404)
    return HttpResponse(bytes(row.photo.image.content), content_type="image/jpeg")


urlpatterns = [
    path("q/<str:token>/extra-work/<int:pk>/", show, name="customer-extra"),
    path("q/<str:token>/extra-work/<int:pk>.pdf", paper, name="customer-extra-pdf"),
    path("q/<str:token>/extra-work/<int:pk>.jpg", photo, name="customer-extra-photo"),
]
