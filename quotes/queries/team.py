"""The people who sign in, and those who were asked to."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db.models import Exists, OuterRef

from catalogue.calc.said import say
from quotes.models import Invitation, Telephone
from quotes.queries.people import NAMES, ROLES, name_of


@dataclass(frozen=True, slots=True)
class Member:
    """One person who may sign in, or might before it was closed."""

    pk: int
    name: str
    sign_in: str
    roles: str
    mail: str
    has_codes: bool
    open: bool
    last: datetime | None


def members() -> list[Member]:
    """Everybody with a sign-in, the open ones first."""
    codes = Telephone.objects.filter(user=OuterRef("pk"), confirmed=True)
    rows = User.objects.annotate(codes=Exists(codes)).prefetch_related("groups")
    return [_member(row) for row in rows.order_by("-is_active", "username")]


def _member(row: User) -> Member:
    names = {group.name for group in row.groups.all()} | ({"owner"} if row.is_superuser else set())
    return Member(
        pk=row.pk,
        name=name_of(row),
        sign_in=row.get_username(),
        roles=", ".join(say(NAMES[role]) for role in ROLES if role in names),
        mail=row.email,
        has_codes=row.codes,  # type: ignore[attr-defined]
        open=row.is_active,
        last=row.last_login,
    )


def open_invitations() -> list[Invitation]:
    """Those that wait for the person, the latest first."""
    return list(Invitation.objects.open())
