"""Takes a backup of database and files while people work."""

from __future__ import annotations

import argparse
from datetime import datetime
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import connection
from django.utils import timezone

from catalogue.models.file_store import file_store
from quotes.management.backups.manifest import BackupError
from quotes.management.backups.rotation import keep_newest, name_for
from quotes.management.backups.trial import NotTried, tried
from quotes.management.backups.whole import back_up

NOT_TRIED = 2


class Command(BaseCommand):
    help = (
        "Copies the database and the files into a new folder, with checksums, while people work. "
        "Exits 1 where no backup was taken or --verify finds a fault, 2 where --verify can't be done."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "folder", type=Path, help="not there yet, or empty; with --keep the folder of all backups"
        )
        parser.add_argument(
            "--keep",
            type=_count,
            metavar="N",
            help="make backup-<date>T<time>Z inside the folder, and of those let only the newest N stay",
        )
        parser.add_argument(
            "--verify",
            action="store_true",
            help="put the backup back into a temporary place and run `verify` on it there",
        )

    def handle(self, *args: Any, folder: Path, keep: int | None, verify: bool, **options: Any) -> None:
        now = timezone.now()
        target = folder.resolve() / name_for(now) if keep else folder.resolve()
        try:
            self._take(target, now, verify)
        except NotTried as error:
            raise CommandError(str(error), returncode=NOT_TRIED) from error
        except BackupError as error:
            raise CommandError(str(error)) from error
        if keep:
            # Only now: while the new one is not known to be good, the old ones are all there is.
            for name in keep_newest(folder.resolve(), keep, made=target):
                self.stdout.write(f"{name}: removed, {keep} newer ones stay")

    def _take(self, target: Path, now: datetime, verify: bool) -> None:
        made = back_up(target, database=connection.settings_dict, files=file_store(), now=now)
        self.stdout.write(
            f"{target}: {sum(made.counts.values()):,} rows and {len(made.files):,} files, checked"
        )
        if verify:
            self.stdout.write(tried(target, database=connection.settings_dict))


def _count(text: str) -> int:
    if not text.isascii() or not text.isdigit() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"{text!r}: a whole number from 1")
    return int(text)
