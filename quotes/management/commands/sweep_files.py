"""Deletes files that no row names."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils import timezone

from quotes.actions.files_moved import sweep_files


class Command(BaseCommand):
    help = (
        "Deletes files that nothing in the record has named for a day: what was left where the machine"
        " stopped between a file and its row."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--dry-run", action="store_true", help="only name them")

    def handle(self, *args: Any, dry_run: bool, **options: Any) -> None:
        left = sweep_files(now=timezone.now(), pretend=dry_run)
        for place in left:
            self.stdout.write(place)
        self.stdout.write(f"{len(left)} files {'would be ' if dry_run else ''}deleted")
