"""On whose account something is changed: set once for a request, and told to no action."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from pathlib import Path

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser

from quotes.models import ByKind, Link
from quotes.queries.people import name_of


@dataclass(frozen=True, slots=True)
class Who:
    """Somebody, or something, that changes the record."""

    kind: ByKind
    id: str
    name: str


def a_person(user: AbstractBaseUser | AnonymousUser) -> Who:
    """The person who is signed in; a visitor who is not is nobody in particular."""
    if not user.is_authenticated:
        return Who(ByKind.PERSON, "", "not signed in")
    return Who(ByKind.PERSON, str(user.pk), name_of(user))


def a_customer(link: Link) -> Who:
    """Whoever holds the customer's link."""
    return Who(ByKind.CUSTOMER, str(link.pk), "customer, by link")


def a_command() -> Who:
    """What runs outside of any request, by the name it was called with."""
    name = Path(sys.argv[0]).name
    words = [name, *sys.argv[1:2]] if name == "manage.py" else [name]
    return Who(ByKind.COMMAND, "", " ".join(words)[:100])


_acting: ContextVar[Callable[[], Who]] = ContextVar("acting", default=a_command)


def acting() -> Who:
    """Who acts at the moment."""
    return _acting.get()()


@contextmanager
def acting_as(who: Callable[[], Who]) -> Iterator[None]:
    """All that is changed inside is on this account. It is asked for only when something is."""
    token = _acting.set(who)
    try:
        yield
    finally:
        _acting.reset(token)
