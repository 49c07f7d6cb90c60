"""The signed-in person as the actions want to know them."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest


def signed_in(request: HttpRequest) -> User:
    """Who is signed in; nobody gets this far without, because every page asks for a sign-in."""
    if not isinstance(request.user, User):
        raise PermissionDenied
    return request.user
