"""`manage.py export_catalogue FILE`: the whole catalogue as a workbook, to be changed and taken in again."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from catalogue.documents.catalogue_book import catalogue_workbook
from catalogue.queries import EmptyCatalogueError
from catalogue.queries.book.written import book_now


class Command(BaseCommand):
    help = "Write the whole catalogue out as an XLSX workbook; import_catalogue takes it in again."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, help="where the workbook is written; it must not be there yet")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            book = book_now()
        except EmptyCatalogueError as nothing:
            raise CommandError(f"Nothing was written: {nothing}") from None
        path: Path = options["file"]
        try:
            with path.open("xb") as file:
                file.write(catalogue_workbook(book))
        except OSError as error:
            raise CommandError(f"Nothing was written: {path}: {error.strerror}") from None
        lines = sum(len(sheet.lines) for sheet in book.sheets)
        self.stdout.write(f"{len(book.sheets)} sheets with {lines:,} lines: {path}")
