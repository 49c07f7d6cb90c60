"""Takes a backup of database and files while people work."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import connection
from django.utils import timezone

from quotes.management.backups.manifest import BackupError
from quotes.management.backups.whole import back_up


class Command(BaseCommand):
    help = "Copies the database and the files into a new folder, with checksums, while people work."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("folder", type=Path, help="a folder that is not there yet, or is empty")

    def handle(self, *args: Any, folder: Path, **options: Any) -> None:
        try:
            made = back_up(
                folder.resolve(),
                database=connection.settings_dict,
                media=Path(settings.MEDIA_ROOT),
                now=timezone.now(),
            )
        except BackupError as error:
            raise CommandError(str(error)) from error
        self.stdout.write(f"{folder}: {sum(made.counts.values())} rows and {len(made.files)} files, checked")
