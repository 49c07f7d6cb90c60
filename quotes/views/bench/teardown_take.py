"""Where the tablet sends what it kept: entries in one batch, and each photo by itself."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import UUID

from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles import finders
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import get_object_or_404
from django.urls import path
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe
from pydantic import ValidationError as Malformed

from catalogue.calc.said import say, say_figure
from quotes.actions.bench.photos import keep_photo
from quotes.actions.bench.taking import BatchTaken, SentEntry, take_entries
from quotes.documents.bench.pictures import MOST_BYTES
from quotes.forms.bench.teardown import SentPhoto, entry_of, fault_words
from quotes.models import FindingSeen, Job, PhotoAbout
from quotes.views.every_request.person import signed_in

MOST_ENTRIES = 500


@never_cache
@require_http_methods(["GET", "POST"])
def take(request: HttpRequest, pk: int) -> HttpResponse:
    """GET: a token to post with, after signing in anew. POST: what became of each entry, by its key."""
    job = get_object_or_404(Job.objects.select_related("engine"), pk=pk)
    if request.method == "GET":
        return JsonResponse({"token": get_token(request)})
    if (request.content_type or "").startswith("multipart/"):
        return _answer(_photo(request, job))
    entries = _listed(request.body)
    if entries is None:
        return JsonResponse(
            {"words": say("No list of {most} entries or fewer.", most=MOST_ENTRIES)}, status=400
        )
    return _answer(_entries(request, job, entries))


def _listed(body: bytes) -> list[Any] | None:
    try:
        entries = json.loads(body)["entries"]
    except (ValueError, KeyError, TypeError, RecursionError):
        return None
    return entries if isinstance(entries, list) and len(entries) <= MOST_ENTRIES else None


def _answer(taken: BatchTaken) -> HttpResponse:
    """`at` tells the tablet which pages are older than what it has just sent."""
    at = timezone.now().timestamp()
    return JsonResponse({"at": at, "kept": taken.kept, "refused": taken.refused})


def _entries(request: HttpRequest, job: Job, entries: list[Any]) -> BatchTaken:
    told, malformed = [], []
    now = timezone.now()
    for entry in entries:
        try:
            sent = entry_of.validate_python(entry)
        except Malformed as wrong:
            field, words = fault_words(wrong)
            malformed.append({"key": _key(entry), "field": field, "words": words})
            continue
        fields = sent.model_dump(exclude={"key", "age", "kind"})
        told.append(SentEntry(sent.kind, sent.key, _made_at(now, sent.age), fields))
    taken = take_entries(job=job, told=told, by=signed_in(request))
    taken.refused += malformed
    return taken


def _made_at(now: datetime, age: int) -> datetime:
    return now - timedelta(milliseconds=age)


def _key(entry: Any) -> str:
    return str(entry.get("key", ""))[:40] if isinstance(entry, Mapping) else ""


def _photo(request: HttpRequest, job: Job) -> BatchTaken:
    """The picture with its words; refused where its finding was."""
    file = request.FILES.get("photo")
    try:
        sent = SentPhoto.model_validate({name: value for name, value in request.POST.items() if value})
        keep_sent_photo(request, job, sent, file)
    except Malformed as wrong:
        field, words = fault_words(wrong)
        return BatchTaken(refused=[{"key": request.POST.get("key", "")[:40], "field": field, "words": words}])
    except ValidationError as wrong:
        return BatchTaken(refused=[{"key": str(sent.key), "field": "photo", "words": wrong.messages[0]}])
    return BatchTaken(kept=[{"key": str(sent.key), "words": say("photo kept")}])


def keep_sent_photo(request: HttpRequest, job: Job, sent: SentPhoto, file: UploadedFile[Any] | None) -> None:
    """Keep one photo of a finding; ValidationError where it can't be."""
    if file is None or (file.size or 0) > MOST_BYTES:
        raise ValidationError(
            say("No photo came with it, or one of more than {most} bytes.", most=say_figure(MOST_BYTES, 0))
        )
    keep_photo(
        job=job,
        about=PhotoAbout.FINDING,
        content=file.read(),
        key=sent.key,
        by=signed_in(request),
        now=_made_at(timezone.now(), sent.age),
        place=sent.place,
        words=sent.words,
        finding=_finding(job, sent.finding),
    )


def _finding(job: Job, key: UUID | None) -> FindingSeen:
    row = FindingSeen.objects.filter(job=job, key=key).first() if key else None
    if row is None:
        raise ValidationError(say("The finding that it shows is not kept."))
    return row


@login_not_required
@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """The script that keeps the sheet at hand without a connection; it stands above the pages it serves."""
    found = finders.find("quotes/teardown-worker.js")
    content = Path(str(found)).read_text()
    answer = HttpResponse(content, content_type="text/javascript; charset=utf-8")
    answer["Cache-Control"] = "no-cache"
    return answer


urlpatterns = [
    path("bench/<int:pk>/teardown/take/", take, name="teardown-take"),
    path("bench/teardown-worker.js", worker, name="teardown-worker"),
]
