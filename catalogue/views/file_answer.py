"""A file as the answer to a request, under a name that any browser reads, whatever its letters."""

from __future__ import annotations

from django.http import HttpResponse
from django.utils.http import content_disposition_header

PDF = "application/pdf"


def file_answer(content: bytes | str, name: str, content_type: str, *, shown: bool = False) -> HttpResponse:
    """To be kept under its name; `shown` in the browser where it can."""
    answer = HttpResponse(content, content_type=content_type)
    answer["Content-Disposition"] = content_disposition_header(as_attachment=not shown, filename=name) or ""
    return answer


def shown_pdf(content: bytes, name: str) -> HttpResponse:
    """A PDF that the browser shows, under this name where it is kept."""
    return file_answer(content, name, PDF, shown=True)
