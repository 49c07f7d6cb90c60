"""`manage.py load_years`: fills an empty database with ten years of invented trading, to measure on."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from quotes.actions.demo.writing import write_settings
from quotes.actions.years.filling import NotForYears, fill, refuse_a_workshop_in_use
from quotes.actions.years.listed import list_parts
from quotes.calc.demo.workshop import STYLES
from quotes.calc.years.plan import FULL_PARTS, FULL_QUOTES
from quotes.imports.demo.file import read_demo
from quotes.management.commands.load_demo import demo_password, load_catalogue
from quotes.management.stray_output import stray_output_to_stderr

SEED = 1


class Command(BaseCommand):
    help = (
        f"Fill an empty database with ten years of invented trading: {FULL_QUOTES:,} quotes, or a share of "
        "them, with builds, invoices, payments and journal. To measure on; never for a workshop in use."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--share", type=_share, default=1.0, help="of the whole size, such as 0.01")
        parser.add_argument("--seed", type=int, default=SEED, help="another number, other names and amounts")
        parser.add_argument("--style", choices=STYLES, default="value-added-tax")

    def handle(self, *args: Any, share: float, seed: int, style: Any, **options: Any) -> None:
        password, now = demo_password(), timezone.now()
        demo = read_demo(Path(settings.BASE_DIR) / "fixtures" / "demo", style)
        quotes = round(FULL_QUOTES * share)
        try:
            refuse_a_workshop_in_use()
            load_catalogue(demo.catalogue)
            write_settings(demo=demo, style=style, password=password, now=now)
            owner = User.objects.get(username="owner")
            with stray_output_to_stderr():
                fill(quotes=quotes, seed=seed, by=owner, now=now, said=self._said)
                list_parts(parts=round(FULL_PARTS * share), seed=seed, by=owner, now=now)
        except NotForYears as refused:
            raise CommandError(str(refused)) from None
        self.stdout.write(f"{quotes:,} quotes with all that came of them are loaded. Sign in as:")
        for person in demo.people:
            self.stdout.write(f"  {person.sign_in:<8} {password}  {person.first_name} {person.last_name}")

    def _said(self, done: int, of: int) -> None:
        """How far it has come, on a terminal only."""
        if self.stderr.isatty():
            self.stderr.write(f"\r{done:,} of {of:,} quotes\r", ending="")


def _share(text: str) -> float:
    try:
        share = float(text)
    except ValueError:
        share = 0.0
    if not 0 < share <= 1:
        raise ArgumentTypeError(f"{text!r}: a share above 0 and at most 1 is allowed, such as 0.01")
    return share
