"""What was sent and could not be taken is handed back, so that nobody types it twice."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.exceptions import RequestDataTooBig
from django.http import HttpRequest

TOKEN = "csrfmiddlewaretoken"  # noqa: S105 - the name of a field
HARDLY_TYPED = frozenset({TOKEN, "key", "version", "do", "seen"})
"""Fields that go along with a form and that nobody typed."""


def handed_back(request: HttpRequest, *, token: str = "") -> dict[str, Any]:
    """For a page with `sent_again.html`: the form as it was sent; a file or a password is not handed back.

    With `token` in the place of the page's own, where that one is no longer good.
    """
    if request.method != "POST":
        return {"sent": False}
    try:
        posted, files = request.POST, bool(request.FILES)
    except (OSError, RequestDataTooBig):
        return {"sent": True}
    secret = any(name in posted for name in settings.AXES_SENSITIVE_PARAMETERS if name != "username")
    if files or secret or not posted:
        return {"sent": True}
    fields = [(name, value) for name, values in posted.lists() for value in values]
    if token:
        fields = [(TOKEN, token), *((name, value) for name, value in fields if name != TOKEN)]
    return {
        "sent": True,
        "fields": fields,
        "typed": [(_said(name), value) for name, value in fields if value and _is_typed(name)],
        "address": request.get_full_path(),
    }


def _is_typed(name: str) -> bool:
    return name not in HARDLY_TYPED and not name.startswith("initial-")


def _said(name: str) -> str:
    return name.replace("_", " ").replace("-", " ")
