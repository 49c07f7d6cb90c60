"""Checks a file of customers and engines, and takes it in with --apply; all of it or nothing."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from quotes.actions.import_customers import add_customers
from quotes.imports.cells import MOST_BYTES
from quotes.imports.faults import FileFault
from quotes.imports.load_customers import CheckedCustomers, check_customers

BAD_INPUT = 2


class Command(BaseCommand):
    """`import_customers FILE` says what would be added; `--apply` adds it."""

    help = __doc__ or ""

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="an XLSX workbook or a CSV file")
        parser.add_argument("--apply", action="store_true", help="add what was found, where nothing is wrong")

    def handle(self, *args: Any, **options: Any) -> None:
        now = timezone.now()
        try:
            checked = check_customers(_content(options["file"]), timezone.localdate(now))
        except FileFault as fault:
            self.stderr.write(str(fault))
            sys.exit(BAD_INPUT)
        if not checked.sound:
            for fault_of_line in checked.faults:
                self.stderr.write(str(fault_of_line))
            self.stderr.write("Nothing was taken in.")
            sys.exit(BAD_INPUT)
        if options["apply"]:
            add_customers(given=checked.file.customers, expected=checked.plan, now=now)
        self.stdout.write(in_words(checked, applied=options["apply"]))


def _content(name: str) -> bytes:
    try:
        with Path(name).open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        raise CommandError(f"{name} can't be read: {error.strerror}") from error


def in_words(checked: CheckedCustomers, *, applied: bool) -> str:
    """What was or would be added, in one line."""
    plan = checked.plan
    counts = (
        f"{plan.new_customers} customers, {plan.new_engines} engines, "
        f"{plan.new_segments} stretches of service"
    )
    if plan.adds_nothing:
        return f"{checked.file.lines} lines: everything in them is in the records already."
    if applied:
        return f"{checked.file.lines} lines: added {counts}."
    return f"{checked.file.lines} lines: would add {counts}. Nothing was changed; add --apply to do it."
