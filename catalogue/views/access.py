"""Who may change the catalogue: the owner; everybody else reads it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse

P = ParamSpec("P")
OWNER = "owner"
"""The name of the group whose members may change the catalogue."""


def may_change(request: HttpRequest) -> bool:
    """Whether this person may change the catalogue."""
    user = request.user
    return user.is_superuser or (user.is_authenticated and user.groups.filter(name=OWNER).exists())


def for_the_owner(
    view: Callable[Concatenate[HttpRequest, P], HttpResponse],
) -> Callable[Concatenate[HttpRequest, P], HttpResponse]:
    """A view that refuses everybody but the owner."""

    @wraps(view)
    def guarded(request: HttpRequest, /, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        if not may_change(request):
            raise PermissionDenied("Only the owner changes the catalogue.")
        return view(request, *args, **kwargs)

    return guarded
