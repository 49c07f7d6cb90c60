"""Photos of an engine as it comes in."""

from __future__ import annotations

from uuid import uuid4

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say, say_count
from catalogue.queries import engine_type_choices
from quotes.actions.bench.photos import keep_photo
from quotes.forms.bench.photos import PhotosForm
from quotes.models import Job, Photo, PhotoAbout
from quotes.views.every_request.person import signed_in
from quotes.views.every_request.stored_answer import served
from quotes.views.missing_photo import drawn_where_missing


def photos(request: HttpRequest, pk: int) -> HttpResponse:
    """A field for each side; what is picked is kept, and the page comes again for more."""
    row = get_object_or_404(Job.objects.joined().defer("quote__request"), pk=pk)
    if request.method != "POST":
        return _page(request, row, PhotosForm(initial={"key": uuid4()}))
    form = PhotosForm(request.POST, request.FILES)
    kept = _keep(request, row, form) if form.is_valid() else 0
    if form.errors:
        return _page(request, row, form)
    if not kept:
        form.add_error(None, say("No picture was picked: press a side and take one."))
        return _page(request, row, form)
    messages.success(request, say_count("{count} photo is kept.", "{count} photos are kept.", kept))
    return redirect("job-photos", pk)


def _keep(request: HttpRequest, row: Job, form: PhotosForm) -> int:
    """How many are kept; a picture that can't be read is said at its field and stops no other."""
    kept = 0
    for name, side, key, content in form.taken():
        words = form.cleaned_data["words"] if name == "other" else ""
        try:
            keep_photo(
                job=row,
                about=PhotoAbout.INTAKE,
                content=content,
                key=key,
                by=signed_in(request),
                now=timezone.now(),
                place=side,
                words=words,
            )
            kept += 1
        except ValidationError as wrong:
            form.add_error(name, wrong.messages[0])
    return kept


def _page(request: HttpRequest, row: Job, form: PhotosForm) -> HttpResponse:
    context = {
        "job": row,
        "types": dict(engine_type_choices()),
        "form": form,
        "photos": intake_photos(row),
    }
    return render(request, "quotes/bench/photos.html", context)


def intake_photos(row: Job) -> list[Photo]:
    """The photos as it came in, without their bytes."""
    return list(row.photos.of(PhotoAbout.INTAKE).order_by("added_at", "pk"))


@drawn_where_missing
@require_safe
def photo(request: HttpRequest, pk: int, photo: int) -> HttpResponseBase:
    """One of them: small, or as it is kept where `large` is asked for."""
    row = get_object_or_404(Photo.objects.filter(job=pk).select_related("image", "small"), pk=photo)
    return served(request, row.image if "large" in request.GET else row.small)


urlpatterns = [
    path("bench/<int:pk>/photos/", photos, name="job-photos"),
    path("bench/<int:pk>/photos/<int:photo>.jpg", photo, name="job-photo"),
]
