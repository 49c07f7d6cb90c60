"""What a form carries unseen: the key it was made with, and the version of what it changes."""

from __future__ import annotations

from uuid import UUID, uuid4

from django.http import HttpRequest


def card_key(request: HttpRequest) -> UUID:
    """The key that the form was made with; one that can't be read counts as a new form."""
    try:
        return UUID(request.POST.get("key", ""))
    except ValueError:
        return uuid4()


def version_of(request: HttpRequest) -> int:
    """The version that the form was made from; 0, which never stands, where it can't be read."""
    typed = request.POST.get("version", "")
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 10 else 0
