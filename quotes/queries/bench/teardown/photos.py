"""Which photos a customer may see: of findings that he was told of, and of extra work offered to him."""

from __future__ import annotations

from django.db.models import Exists, OuterRef, Q

from quotes.models import ExtraWork, JobStep, Photo, Quote, Step
from quotes.models.bench.job import PhotoQuerySet


def customers_photos(quote: Quote) -> PhotoQuerySet:
    """Photos of standing findings seen before the findings were issued, and those that extra work shows."""
    issued = JobStep.objects.filter(
        job=OuterRef("job"), step=Step.FINDINGS, at__gte=OuterRef("finding__seen_at")
    )
    offered = ExtraWork.objects.exclude(state="withdrawn").filter(photo=OuterRef("pk"), build__quote=quote)
    told = Q(about="finding", finding__withdrawn_at=None) & Exists(issued)
    return Photo.objects.filter(Q(job__quote=quote) & told | Exists(offered))
