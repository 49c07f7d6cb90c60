"""Looks the whole record through and prints one line for each fault; writes nothing."""

from __future__ import annotations

import sys
from typing import Any

from django.core.management.base import BaseCommand
from django.db import Error
from django.utils import timezone

from catalogue.models.file_store import StoreSilent
from quotes.queries.record.chained import head_now
from quotes.queries.record.checks import CHECKS, Check
from quotes.queries.record.erased import erasures_told
from quotes.queries.record.files import unknown_files
from quotes.queries.record.moment import one_moment

FAULTY, NOT_CHECKED = 1, 2


class Command(BaseCommand):
    """`verify`: documents, files, numbers, journal. Exits 1 where there is a fault, 2 where it can't look."""

    help = __doc__ or ""
    requires_system_checks = ()

    def handle(self, *args: Any, **options: Any) -> None:
        self.faults = 0
        try:
            with one_moment():
                counts = [f"{self._looked_at(check):,} {check.counts}" for check in CHECKS]
                told = [*erasures_told()]
                head = head_now()
        except Error as error:
            self.stderr.write(f"The record can't be read ({error}). Has `manage.py migrate` been run?")
            sys.exit(NOT_CHECKED)
        for words in told:
            self.stdout.write(f"Note: {words}")
        for path in self._unknown_files():
            self.stdout.write(f"Note: {path} among the files is named by nothing in the record")
        if head is not None:
            self.stdout.write(f"Note: the record of changes ends with entry {head.count:,}, hash {head.hash}")
        verdict = f"{self.faults:,} faults in" if self.faults else "Sound:"
        self.stdout.write(f"{verdict} {', '.join(counts)}")
        if self.faults:
            sys.exit(FAULTY)

    def _unknown_files(self) -> list[str]:
        try:
            return unknown_files(timezone.now())
        except StoreSilent as trouble:
            self.stdout.write(f"Note: what lies among the files can't be listed: {trouble}")
            return []

    def _looked_at(self, check: Check) -> int:
        """How many things the check looked at; its faults are printed as they are found."""
        looked = 0
        for found in check.look():
            looked += 1
            self.faults += len(found)
            for fault in found:
                self.stdout.write(str(fault))
        return looked
