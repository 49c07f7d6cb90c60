"""`manage.py import_catalogue FILE`: takes in what was changed in a workbook of the catalogue."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from catalogue.actions.book import take_in_book
from catalogue.actions.refused import Refused
from catalogue.queries.book.told import CellChange
from quotes.imports.catalogue_book.check import CheckedBook, check_book
from quotes.imports.faults import FileFault
from quotes.queries.catalogue_uses import uses


class Command(BaseCommand):
    help = (
        "Take in what was changed in a workbook that export_catalogue wrote. Every cell is checked first; "
        "then all of it is done or nothing."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--dry-run", action="store_true", help="check and show, and change nothing")

    def handle(self, *args: Any, **options: Any) -> None:
        path: Path = options["file"]
        try:
            checked = check_book(path.read_bytes())
        except OSError as error:
            raise CommandError(f"{path} can't be read: {error.strerror}") from None
        except FileFault as fault:
            raise CommandError(f"Nothing was taken in. {fault}") from None
        if not checked.sound:
            said = "\n".join(str(fault) for fault in checked.faults)
            many = len(checked.faults)
            raise CommandError(f"Nothing was taken in: {many:,} fault{'s' if many > 1 else ''}.\n{said}")
        for line in in_words(checked):
            self.stdout.write(line)
        if not options["dry_run"] and checked.moves:
            self.stdout.write(_taken_in(checked, path.name))


def _taken_in(checked: CheckedBook, name: str) -> str:
    assert checked.given is not None
    assert checked.plan is not None
    try:
        take_in_book(
            given=checked.given,
            looked_at=checked.plan,
            used=uses,
            source=f"workbook {name}",
            by=None,
            now=timezone.now(),
        )
    except Refused as refused:
        raise CommandError(str(refused)) from None
    return "Taken in."


def in_words(checked: CheckedBook) -> list[str]:
    """What the workbook changes, by count and cell by cell."""
    if not checked.moves:
        return [f"{checked.lines:,} lines, and nothing that is not so already: nothing changes."]
    counted = [
        f"{kind.replace('_', ' '):16}{added:>8} added{changed:>8} changed{removed:>8} taken out"
        for kind, added, changed, removed in checked.counts
    ]
    return counted + [_change(one) for one in checked.changes]


def _change(one: CellChange) -> str:
    where = ", ".join(part for part in (one.sheet, one.line, one.head) if part)
    return f"{where}: {one.before or 'nothing'} -> {one.after or 'nothing'}"
