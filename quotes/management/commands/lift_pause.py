"""Ends the pause after wrong passwords."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from quotes.actions.sign_ins import lift_pause


class Command(BaseCommand):
    help = "Lets a name sign in again at once after too many wrong passwords."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("name", help="what the person types to sign in")

    def handle(self, *args: Any, name: str, **options: Any) -> None:
        if lift_pause(name=name):
            self.stdout.write(f"{name} may try again.")
        else:
            self.stdout.write(f"No wrong password was tried for {name}: there was nothing to lift.")
