"""Writes on sign-ins: giving a person a role."""

from __future__ import annotations

from django.contrib.auth.models import Group, User
from django.db import transaction

from quotes.queries.people import Role


@transaction.atomic
def give_role(*, user: User, role: Role) -> None:
    """Put a person into a role beside those they have; giving it twice changes nothing."""
    group, _ = Group.objects.get_or_create(name=role)
    user.groups.add(group)
    user.__dict__.pop("_roles", None)
