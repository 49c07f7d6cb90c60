"""Adds a person who may sign in."""

from __future__ import annotations

import sys
from getpass import getpass
from typing import Any

from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError, CommandParser

from quotes.actions.sign_ins import add_person
from quotes.queries.people import ROLES, Role


class Command(BaseCommand):
    help = "Adds a sign-in with a role. Asks for the password, or reads it from standard input."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("name", help="what the person types to sign in")
        parser.add_argument("--role", required=True, choices=ROLES)
        parser.add_argument("--first-name", default="")
        parser.add_argument("--last-name", default="")
        parser.add_argument("--mail", default="", help="where a link goes when the password is forgotten")

    def handle(self, *args: Any, name: str, role: Role, **options: Any) -> None:
        names = {key: options[key] for key in ("first_name", "last_name", "mail")}
        try:
            add_person(name=name, password=_password(), role=role, **names)
        except ValidationError as error:
            raise CommandError("\n".join(error.messages)) from error
        self.stdout.write(f"{name} may sign in, as {role}.")


def _password() -> str:
    if not sys.stdin.isatty():
        return sys.stdin.readline().rstrip("\n")
    first = getpass("Password: ")
    if first != getpass("The same again: "):
        raise CommandError("The two passwords are not the same. Nothing was added.")
    return first
