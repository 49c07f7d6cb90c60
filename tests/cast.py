"""The people that tests speak of. Every name is invented."""

from __future__ import annotations

from functools import cache, lru_cache
from pathlib import Path

from django.contrib.auth.hashers import make_password
from django.contrib.auth.models import User

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.resolve import resolve
from catalogue.calc.rows import CatalogueRows
from catalogue.imports.read import read_catalogue
from quotes.actions.people import give_role
from quotes.queries.people import Role
from tests.written_again import written_again

PASSWORD = "a-long-test-password"
NAMES: dict[Role, tuple[str, str]] = {
    "owner": ("Orla", "Venn"),
    "desk": ("Dessa", "Quill"),
    "builder": ("Bram", "Tolley"),
    "books": ("Bea", "Marrow"),
}


@written_again
def person(role: Role) -> User:
    """The one person of the cast with that role, made at the first call."""
    # There is one at most, so none is put in order: the cast is asked for thousands of times.
    for user in User.objects.filter(username=role):
        return user
    first, last = NAMES[role]
    user = User(username=role, first_name=first, last_name=last, password=_kept_password())
    user.save(force_insert=True)
    give_role(user=user, role=role)
    return user


@cache
def _kept_password() -> str:
    return make_password(PASSWORD)


def owner() -> User:
    return person("owner")


def desk() -> User:
    return person("desk")


def builder() -> User:
    return person("builder")


def books() -> User:
    return person("books")


FIXTURES = Path(__file__).resolve().parent.parent / "fixtures"


@lru_cache
def shipped_rows() -> CatalogueRows:
    """The catalogue that ships, read from its files without a database."""
    return read_catalogue(FIXTURES / "catalogue")


@lru_cache
def shipped(code: str) -> EngineCatalogue:
    """The catalogue that ships, settled for one engine type, without a database."""
    return resolve(shipped_rows(), code)
