"""`manage.py load_catalogue`: loads the catalogue that ships, and says what it did."""

from __future__ import annotations

from argparse import ArgumentParser
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from catalogue.actions.load import LoadReport, load_rows
from catalogue.actions.refused import ChecksFailed, Refused
from catalogue.calc.convert import converted
from catalogue.imports.read import CatalogueError, line, read_catalogue


class Command(BaseCommand):
    help = "Load the catalogue from its files. Everything is checked before anything is written."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--folder", type=Path, default=Path(settings.BASE_DIR) / "fixtures" / "catalogue")
        parser.add_argument("--currency", default=None, help="three letters, for instance EUR; needs --rate")
        parser.add_argument("--rate", default=None, help="how much of it one unit of the files' currency is")
        parser.add_argument(
            "--overwrite", action="store_true", help="take the shipped value also where you set your own"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            rows = read_catalogue(options["folder"])
        except CatalogueError as error:
            raise CommandError(f"Nothing was loaded.\n{error}") from None
        rows = converted(rows, *_currency(options, rows.currency))
        try:
            report = load_rows(rows=rows, overwrite=options["overwrite"], now=timezone.now())
        except ChecksFailed as refused:
            said = "\n".join(line(fault) for fault in refused.faults)
            raise CommandError(f"Nothing was loaded: your own values do not fit.\n{said}") from None
        except Refused as refused:
            raise CommandError(f"Nothing was loaded: {refused}") from None
        self.stdout.write(in_words(report, rows.currency))


def _currency(options: dict[str, Any], files: str) -> tuple[str, Decimal]:
    """The currency asked for and its rate. Raises CommandError when the two don't go together."""
    currency, rate = options["currency"] or files, options["rate"]
    if rate is None:
        if currency != files:
            raise CommandError(f"--currency {currency} needs --rate: how much of it is one {files}?")
        return files, Decimal(1)
    try:
        amount = Decimal(str(rate))
    except InvalidOperation:
        amount = Decimal("NaN")
    if not (amount.is_finite() and 0 < amount < 1_000_000):
        raise CommandError(f"--rate {rate}: give a number above 0, for instance 0.92")
    if len(currency) != 3 or not currency.isascii() or not currency.isupper():
        raise CommandError(f"--currency {currency}: give three capital letters, for instance EUR")
    return currency, amount


def in_words(report: LoadReport, currency: str) -> str:
    """The report as lines to read."""
    lines = [f"Catalogue in {currency}.", f"{'':16}{'added':>8}{'changed':>9}{'unchanged':>11}"]
    lines += [
        f"{kind.kind.replace('_', ' '):16}{kind.added:>8}{kind.changed:>9}{kind.unchanged:>11}"
        for kind in report.kinds
    ]
    lines += [
        f"kept your own value: {kept.kind} {kept.entry} {kept.field}: {kept.own} (shipped: {kept.shipped})"
        for kept in report.kept
    ]
    lines += [f"kept your own entry: {kind} {code}" for kind, code in report.own_entries]
    return "\n".join(lines)
