"""Asks a person for no one-time code any more."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.core.management.base import BaseCommand, CommandError, CommandParser

from quotes.actions.codes import drop_codes


class Command(BaseCommand):
    help = "For a lost telephone: no code is asked of this name until it sets codes up again."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("name", help="what the person types to sign in")

    def handle(self, *args: Any, name: str, **options: Any) -> None:
        user = User.objects.filter(username=name).first()
        if user is None:
            raise CommandError(f"Nobody signs in as {name}.")
        had = drop_codes(user=user)
        self.stdout.write(f"No code is asked of {name}." if had else f"{name} had no codes.")
