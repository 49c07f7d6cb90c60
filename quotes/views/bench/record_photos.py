"""Photos of the assembly: timing marks, balancer marks, whatever is closed over and not seen again."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path, reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.calc.said import say, say_figure
from quotes.actions.bench.photos import keep_photo
from quotes.documents.bench.pictures import MOST_BYTES
from quotes.models import Job, PhotoAbout
from quotes.views.bench.record import closed_record, job_of
from quotes.views.every_request.form_marks import card_key
from quotes.views.every_request.person import signed_in

WORDS_LENGTH = 300


@require_POST
def take_photo(request: HttpRequest, pk: int) -> HttpResponse:
    """Keep one photo with its words."""
    job, file = job_of(pk), request.FILES.get("photo")
    words = request.POST.get("words", "").strip()
    try:
        keep_photo(
            job=job,
            about=PhotoAbout.ASSEMBLY,
            content=_content(job, file, words),
            key=card_key(request),
            by=signed_in(request),
            now=timezone.now(),
            words=words,
        )
        messages.success(request, say("The photo is kept."))
    except ValidationError as wrong:
        messages.error(request, wrong.messages[0])
    return redirect(f"{reverse('record', args=[pk])}#photos")


def _content(job: Job, file: UploadedFile[bytes] | None, words: str) -> bytes:
    """The photo as it came; ValidationError where it can't be kept, or says nothing."""
    if closed_record(job) is not None:
        raise ValidationError(say("The record is closed: the photo was not kept."))
    if file is None or (file.size or 0) > MOST_BYTES:
        most = say_figure(MOST_BYTES, 0)
        raise ValidationError(
            say("No photo came, or one of more than {most} bytes: take it again.", most=most)
        )
    if not words or len(words) > WORDS_LENGTH:
        raise ValidationError(
            say("The photo was not kept: say what it shows, in {most} characters.", most=WORDS_LENGTH)
        )
    content: bytes = file.read()
    return content


urlpatterns = [path("bench/<int:pk>/record/photo/", take_photo, name="record-photo")]
"""Before the groups' addresses, which would take `photo` for a group."""
