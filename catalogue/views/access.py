"""Who is shown that he may change the catalogue: the owner. The site refuses everybody else."""

from __future__ import annotations

from django.http import HttpRequest

OWNER = "owner"
"""The name of the group whose members may change the catalogue."""


def may_change(request: HttpRequest) -> bool:
    """Whether this person may change the catalogue."""
    user = request.user
    return user.is_superuser or (user.is_authenticated and user.groups.filter(name=OWNER).exists())
