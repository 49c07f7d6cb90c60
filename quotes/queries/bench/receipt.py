"""The intake receipt as a value, and the photos that it shows."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, cast

from django.utils import timezone

from catalogue.calc.said import say
from catalogue.queries import duty_choices, engine_type_choices
from quotes.calc.bench.receipt import PhotoShown, ReceiptSheet
from quotes.calc.life.units import WORDS
from quotes.calc.sheet.unit_words import plain_figure
from quotes.models import Job, Photo, PhotoAbout, StoredFile, Workshop
from quotes.queries.bench.read_by import read_by_customer
from quotes.queries.people import name_of
from quotes.queries.sheets import customer_party, workshop_party

MOST_PHOTOS = 12
"""Two sheets of paper; the rest stand on the job's page."""


@read_by_customer
def receipt_sheet(job: Job) -> ReceiptSheet:
    """What the customer would be given now."""
    workshop = Workshop.objects.get_or_default()
    code = job.engine.type_code
    return ReceiptSheet(
        number=job.number,
        workshop=workshop_party(workshop),
        customer=customer_party(job.customer),
        engine_name=dict(engine_type_choices()).get(code, code),
        engine_number=job.engine.number,
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=job.customer.reads,
        on=timezone.localdate(job.received_at),
        brought_by=job.brought_by,
        right=job.right_to_hand_over,
        delivered=job.get_delivered_display(),
        shelf=job.shelf,
        tag=job.tag,
        marks=tuple((say(where), what) for where, what in job.marks),
        came_with=tuple(map(say, job.came_with)),
        missing=job.missing,
        oil_seen=job.oil_seen,
        symptoms=job.symptoms,
        use=_use(job),
        service=_service(job),
        photos=_photos(job),
        taken_by=name_of(job.received_by),
    )


def _use(job: Job) -> str:
    duty = dict(duty_choices()).get(job.duty, job.duty)
    return ". ".join(filter(None, (duty, job.use_note)))


def _service(job: Job) -> str:
    if job.service_amount is None:
        return say("not known")
    words = {str(code): word for code, word in WORDS.items()}
    amount = plain_figure(Decimal(job.service_amount))
    return f"{amount} {say(words[job.service_unit])}, {job.get_service_known_display()}"


def _photos(job: Job) -> tuple[PhotoShown, ...]:
    rows = Photo.objects.filter(job=job).of(PhotoAbout.INTAKE).select_related("small")
    rows = rows.defer("small__held").order_by("added_at", "pk")
    return tuple(
        PhotoShown(sha256=row.small.sha256, words=": ".join(filter(None, (say(row.place), row.words))))
        for row in rows[:MOST_PHOTOS]
    )


def pictures_of(job: Job, sheet: ReceiptSheet) -> dict[str, bytes]:
    """The pictures that a receipt names, by fingerprint."""
    wanted = {photo.sha256 for photo in sheet.photos}
    found = StoredFile.objects.filter(sha256__in=wanted, pk__in=job.photos.values("small"))
    return {file.sha256: bytes(file.content) for file in found}
