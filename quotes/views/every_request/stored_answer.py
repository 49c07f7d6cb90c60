"""A file that was stored once as the answer to a request: to be kept, or shown in the browser."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.utils.cache import get_conditional_response

from catalogue.views.file_answer import file_answer
from quotes.models import StoredFile


def download(file: StoredFile) -> HttpResponse:
    """The bytes as they were stored, to be kept under the file's name."""
    return file_answer(bytes(file.content), file.name, file.content_type)


def served(request: HttpRequest, file: StoredFile) -> HttpResponseBase:
    """The bytes as they were stored, shown; the fingerprint lets a browser keep what it has (304)."""
    answer = file_answer(bytes(file.content), file.name, file.content_type, shown=True)
    answer["ETag"] = f'"{file.sha256}"'
    return get_conditional_response(request, answer["ETag"], None, answer) or answer
