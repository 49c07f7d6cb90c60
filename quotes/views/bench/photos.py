"""Photos: for those who work at the bench, and for the customer where he was sent what they show."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path
from django.views.decorators.http import require_safe

from catalogue.views.file_answer import file_answer
from quotes.models import Photo, StoredFile
from quotes.queries.bench.teardown.photos import customers_photos
from quotes.views.customer.link import OpenedLink, by_link
from quotes.views.missing_photo import drawn_where_missing

SIZES = ("image", "small")


def _picture(photo: Photo, size: str) -> HttpResponse:
    """A photo never changes: whoever may see it may keep it, but no cache on the way."""
    file: StoredFile = photo.small if size == "small" else photo.image
    answer = file_answer(bytes(file.content), file.name, "image/jpeg", shown=True)
    answer["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer


@drawn_where_missing
@require_safe
def photo(request: HttpRequest, pk: int, size: str = "image") -> HttpResponse:
    """A photo, whole or small."""
    if size not in SIZES:
        raise Http404
    return _picture(get_object_or_404(Photo.objects.select_related(size), pk=pk), size)


@by_link
@drawn_where_missing
@require_safe
def customer_photo(request: HttpRequest, opened: OpenedLink, pk: int) -> HttpResponse:
    """A photo of the findings or the extra work that this link's own customer was sent."""
    row = customers_photos(opened.quote).filter(pk=pk).select_related("image").first()
    return _picture(row, "image") if row else render(request, "quotes/customer_gone.html", status=404)


urlpatterns = [
    path("bench/photos/<int:pk>.jpg", photo, name="photo"),
    path("bench/photos/<int:pk>-small.jpg", photo, {"size": "small"}, name="photo-small"),
    path("q/<str:token>/photos/<int:pk>.jpg", customer_photo, name="customer-photo"),
]
