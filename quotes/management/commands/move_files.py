"""Moves files to where the settings say that they are kept."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from catalogue.models.file_store import file_store
from quotes.actions.files_moved import FileUnsound, count_in_rows, move_from_folder, move_out_of_rows
from quotes.management.backups.files import where


class Command(BaseCommand):
    help = (
        "Moves files out of the database to where the settings keep them, while people work; with --from also"
        " those of a folder in which they were kept before. Broken off, it goes on where it was."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--from", dest="folder", type=Path, help="the folder that held them until now")

    def handle(self, *args: Any, folder: Path | None, **options: Any) -> None:
        try:
            fetched = sum(1 for _ in move_from_folder(folder)) if folder else 0
            moved, all_of_them = 0, count_in_rows()
            for some in move_out_of_rows():
                moved += some
                self.stdout.write(f"{moved} of {all_of_them}")
        except (FileUnsound, OSError) as error:
            raise CommandError(str(error)) from error
        came = f", {fetched} from {folder}" if folder else ""
        self.stdout.write(f"{moved} files moved out of the database{came}, to {where(file_store())}")
