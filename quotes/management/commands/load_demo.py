"""`manage.py load_demo`: fills an empty database with an invented workshop, its people and its quotes."""

from __future__ import annotations

import os
from argparse import ArgumentParser
from io import StringIO
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from quotes.actions.demo.writing import OtherWorkshop, refuse_other_workshop, write_demo
from quotes.calc.demo.workshop import STYLES, DemoCatalogue
from quotes.imports.demo.earlier import enter_earlier
from quotes.imports.demo.file import read_demo, read_year
from quotes.imports.demo.prices import write_demo_prices

PASSWORD = "demo-bench-only"  # Of demos only, and said on the screen. # noqa: S105
"""Known to everybody who can read this, so it is given only where nobody else can reach the site."""
LOCAL = frozenset({"localhost", "127.0.0.1", "[::1]", "testserver"})


class Command(BaseCommand):
    help = "Load a demo workshop. Loading it again adds nothing. DEMO_PASSWORD sets the sign-ins' password."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--style", choices=STYLES, default=STYLES[0])
        parser.add_argument("--year", action="store_true", help="with the builds and books of the past year")

    def handle(self, *args: Any, **options: Any) -> None:
        style = options["style"]
        password = demo_password()
        try:
            refuse_other_workshop(style=style)
            folder = Path(settings.BASE_DIR) / "fixtures" / "demo"
            demo, year = read_demo(folder, style), read_year(folder) if options["year"] else None
            load_catalogue(demo.catalogue)
            now = timezone.now()
            write_demo(demo=demo, style=style, password=password, now=now, year=year, said=self._said)
            enter_earlier(folder=folder, by=User.objects.get(username="owner"), now=now)
            write_demo_prices(now=now)
        except OtherWorkshop as refused:
            raise CommandError(str(refused)) from None
        self.stdout.write(f"{demo.workshop['name']} is loaded. Sign in as:")
        for person in demo.people:
            self.stdout.write(f"  {person.sign_in:<8} {password}  {person.first_name} {person.last_name}")

    def _said(self, done: int, of: int) -> None:
        """How far the year has come, on a terminal only."""
        if self.stderr.isatty():
            self.stderr.write(f"\r{done} of {of} days\r", ending="")


def demo_password() -> str:
    """The password of the demo's sign-ins; CommandError where a known one would stand open to others."""
    if given := os.environ.get("DEMO_PASSWORD"):
        return given
    if strangers := sorted(set(settings.ALLOWED_HOSTS) - LOCAL):
        raise CommandError(
            f"This site answers to {', '.join(strangers)}: the demo's known password would let anybody in. "
            "Set DEMO_PASSWORD to one of your own."
        )
    return PASSWORD


def load_catalogue(given: DemoCatalogue) -> None:
    """The shipped catalogue in the demo's currency."""
    options: dict[str, Any] = {"currency": given.currency}
    if given.rate is not None:
        options["rate"] = str(given.rate)
    call_command("load_catalogue", stdout=StringIO(), **options)
