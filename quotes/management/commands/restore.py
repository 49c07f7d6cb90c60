"""Puts a backup back into an empty place."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import connection

from catalogue.models.file_store import file_store
from quotes.management.backups.manifest import BackupError
from quotes.management.backups.whole import restore


class Command(BaseCommand):
    help = "Puts a backup into an empty database and an empty data folder, after checking its checksums."
    # The checks look at the database, which is still empty.
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("folder", type=Path, help="a folder that `backup` made")

    def handle(self, *args: Any, folder: Path, **options: Any) -> None:
        try:
            known = restore(folder.resolve(), database=connection.settings_dict, files=file_store())
        except BackupError as error:
            raise CommandError(str(error)) from error
        self.stdout.write(
            f"Put back {sum(known.counts.values()):,} rows and {len(known.files):,} files "
            f"as of {known.made_at}. "
            "Run `manage.py migrate` next: this version may be newer than the backup. No backup holds the"
            " key of the site: put back its SECRET_KEY, or the file secret_key, or one-time codes can't be"
            " read."
        )
