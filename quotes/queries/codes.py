"""Reads on one-time codes: who has them, and who must."""

from __future__ import annotations

from django.contrib.auth.models import User

from quotes.models import Telephone
from quotes.queries.people import roles_of

MUST = frozenset({"owner", "books"})


def has_codes(user: User) -> bool:
    """Whether a person has set up one-time codes; whoever has is asked for one."""
    return bool(Telephone.objects.filter(user=user, confirmed=True).exists())


def must_have_codes(user: User, *, required: bool) -> bool:
    """Whether a person may not sign in without."""
    return required and bool(MUST & roles_of(user))
