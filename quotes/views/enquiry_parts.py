"""Small pieces that the answers of several pages share."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def pdf_response(content: bytes, name: str) -> HttpResponse:
    """A PDF that the browser shows, under this name where it is kept."""
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}"'
    response["X-Content-Type-Options"] = "nosniff"
    return response


def version_of(request: HttpRequest) -> int:
    """The version that a form was made from; 0, which never stands, where it can't be read."""
    typed = request.POST.get("version", "")
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 10 else 0
