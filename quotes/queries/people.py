"""The roles of people, and what people are called. What a role may do stands in `rights`."""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal, get_args

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser, User

from catalogue.calc.said import say, to_say

Role = Literal["desk", "builder", "books", "owner"]
ROLES: tuple[Role, ...] = get_args(Role)
NAMES: dict[Role, str] = {
    "desk": to_say("desk"),
    "builder": to_say("builder"),
    "books": to_say("books"),
    "owner": to_say("owner"),
}


def in_words(roles: Collection[str]) -> str:
    """Roles as one asks for a person: one of them is enough."""
    return say(" or ").join(say(NAMES[role]) for role in ROLES if role in roles)


def roles_of(user: AbstractBaseUser | AnonymousUser) -> frozenset[str]:
    """The roles of a person, read once for each request; a superuser is an owner."""
    if not isinstance(user, User):
        return frozenset()
    known: frozenset[str] | None = getattr(user, "_roles", None)
    if known is None:
        names = set(user.groups.filter(name__in=ROLES).values_list("name", flat=True))
        known = frozenset(names | ({"owner"} if user.is_superuser else set()))
        user._roles = known  # type: ignore[attr-defined]
    return known


def name_of(user: AbstractBaseUser | AnonymousUser) -> str:
    """What a person is called on a page or in a record: full name, else the sign-in name."""
    return user.get_full_name() or user.get_username() if isinstance(user, User) else ""
