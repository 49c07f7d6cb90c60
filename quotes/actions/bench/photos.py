"""Keeping photos: scaled down, upright, without place or camera, once."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.saving import checked
from quotes.actions.storing import store_file
from quotes.documents.bench.pictures import NotAPicture, Pictures, pictures_of
from quotes.models import FindingSeen, Job, Photo

JPEG = "image/jpeg"


def keep_photo(
    *,
    job: Job,
    about: str,
    content: bytes,
    key: UUID,
    by: User,
    now: datetime,
    place: str = "",
    words: str = "",
    finding: FindingSeen | None = None,
) -> Photo:
    """Keep a picture; the same key again gives the one that was kept.

    ValidationError by field: bytes that are no picture or too many, a finding of another job.
    The picture is worked on before the transaction, which then holds nobody up.
    """
    if kept := Photo.objects.filter(key=key).first():
        return kept
    if finding is not None and finding.job_id != job.pk:
        raise ValidationError({"finding": say("This finding is not one of {number}.", number=job.number)})
    row = Photo(
        key=key,
        job=job,
        about=about,
        finding=finding,
        place=place.strip(),
        words=words.strip(),
        added_at=now,
        by=by,
    )
    checked(row, exclude=("image", "small"))
    try:
        made = pictures_of(content)
    except NotAPicture as wrong:
        raise ValidationError({"content": str(wrong)}) from None
    return _keep(row, made, now)


@transaction.atomic
def _keep(row: Photo, made: Pictures, now: datetime) -> Photo:
    """Once: of two that came at the same time, the second waits for the job and finds the first."""
    Job.objects.select_for_update(of=("self",)).get(pk=row.job_id)
    if kept := Photo.objects.filter(key=row.key).first():
        return kept
    for field, picture in (("image", made.large), ("small", made.small)):
        name = f"{row.job.number}-{str(row.key)[:8]}-{field}.jpg"
        setattr(row, field, store_file(name=name, content_type=JPEG, content=picture, now=now))
    row.save()
    return row
