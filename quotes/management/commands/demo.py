"""Shows the main job on a demo workshop: one engine worked out, its quote written to a folder."""

from __future__ import annotations

from io import StringIO
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandParser

from quotes.actions.files import quote_pdf_file, quote_workbook_file
from quotes.calc.demo.workshop import STYLES
from quotes.documents.table import comparison_table
from quotes.management.demo import shown_revision
from quotes.management.stray_output import stray_output_to_stderr
from quotes.models import StoredFile
from quotes.queries.sheets import sheet_of


class Command(BaseCommand):
    help = (
        "Loads a demo workshop, prints one engine's options as a table, writes its quote as PDF and workbook."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--style", choices=STYLES, default=STYLES[0])
        parser.add_argument(
            "--out", type=Path, default=Path("out"), help="folder for the PDF and the workbook"
        )
        parser.add_argument(
            "--no-year",
            action="store_false",
            dest="year",
            help="without the builds and books of the past year, which take a minute or two to write",
        )

    def handle(self, *args: Any, style: str, out: Path, year: bool, **options: Any) -> None:
        self.stdout.write("Filling the demo workshop: a minute or two the first time, moments after that.")
        with stray_output_to_stderr():
            call_command("load_demo", style=style, year=year, stdout=StringIO())
            revision = shown_revision()
            files = quote_pdf_file(revision=revision), quote_workbook_file(revision=revision)
        sheet = sheet_of(revision)
        heading = sheet.heading
        self.stdout.write(f"\n{heading.workshop.name}, quote {heading.number} for {heading.customer.name}\n")
        self.stdout.write(comparison_table(sheet.comparison))
        self.stdout.write("The same quote as it would be sent:")
        for file in files:
            self.stdout.write(f"  {_write(file, out)}")


def _write(file: StoredFile, folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / file.name
    path.write_bytes(bytes(file.content))
    return path
