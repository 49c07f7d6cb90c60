"""What a form carries unseen: the key it was made with, and the version of what it changes."""

from __future__ import annotations

from uuid import UUID, uuid4

from django.http import HttpRequest

from catalogue.calc.typed_figure import typed_number


def card_key(request: HttpRequest) -> UUID:
    """The key that the form was made with; one that can't be read counts as a new form."""
    try:
        return UUID(request.POST.get("key", ""))
    except ValueError:
        return uuid4()


def version_of(request: HttpRequest, *, unread: int = 0) -> int:
    """The version that the form was made from; `unread`, one that never stands, where it can't be read."""
    read = typed_number(request.POST.get("version", ""))
    return unread if read is None else read
