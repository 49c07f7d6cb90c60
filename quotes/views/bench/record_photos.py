"""Photos of the assembly: timing marks, balancer marks, whatever is closed over and not seen again."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say, say_figure
from quotes.actions.bench.photos import keep_photo
from quotes.documents.bench.pictures import MOST_BYTES
from quotes.models import PhotoAbout
from quotes.views.bench.record import closed_record, job_of
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in

WORDS_LENGTH = 300


@require_POST
def take_photo(request: HttpRequest, pk: int) -> HttpResponse:
    """Keep one photo with its words."""
    job, file = job_of(pk), request.FILES.get("photo")
    words = request.POST.get("words", "").strip()
    if closed_record(job) is not None:
        messages.error(request, say("The record is closed: the photo was not kept."))
    elif file is None or (file.size or 0) > MOST_BYTES:
        messages.error(
            request,
            say(
                "No photo came, or one of more than {most} bytes: take it again.",
                most=say_figure(MOST_BYTES, 0),
            ),
        )
    elif not words or len(words) > WORDS_LENGTH:
        messages.error(
            request,
            say("The photo was not kept: say what it shows, in {most} characters.", most=WORDS_LENGTH),
        )
    else:
        try:
            keep_photo(
                job=job,
                about=PhotoAbout.ASSEMBLY,
                content=file.read(),
                key=card_key(request),
                by=signed_in(request),
                now=timezone.now(),
                words=words,
            )
            messages.success(request, say("The photo is kept."))
        except ValidationError as wrong:
            messages.error(request, wrong.messages[0])
    return redirect(f"{reverse('record', args=[pk])}#photos")


urlpatterns = [path("bench/<int:pk>/record/photo/", take_photo, name="record-photo")]
"""Before the groups' addresses, which would take `photo` for a group."""
