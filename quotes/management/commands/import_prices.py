"""Takes in a supplier's price list, all of it or nothing; with --dry-run it only says what it would do."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from datetime import date
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction
from django.utils import timezone

from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.handing_in import hand_in, keep_reading
from catalogue.actions.price_list.taking import take_list
from catalogue.actions.refused import Refused
from catalogue.calc.price_list.listed import Rejected
from catalogue.calc.price_list.reading import Reading, ReadList
from catalogue.calc.price_list.shown import written
from catalogue.models import ListTerms, PriceList, Supplier
from quotes.imports.faults import FileFault
from quotes.imports.price_list.limits import MOST_BYTES
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.suggest import suggest
from quotes.queries.price_list_effect import effect_of
from quotes.queries.price_list_words import effect_in_words, in_words

BAD_INPUT = 2
SHOWN = 50


class Command(BaseCommand):
    """`import_prices FILE --supplier CODE`; read as the supplier's last list was, else as it looks."""

    help = __doc__ or ""

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", help="an XLSX workbook or a CSV file")
        parser.add_argument("--supplier", required=True, help="the supplier's code in the catalogue")
        parser.add_argument("--from", dest="from_day", type=date.fromisoformat, help="in force from that day")
        parser.add_argument("--part", action="store_true", help="what it leaves out is not gone")
        parser.add_argument("--dry-run", action="store_true", help="change nothing")

    def handle(self, *args: Any, **options: Any) -> None:
        supplier, today = options["supplier"], timezone.localdate()
        if not Supplier.objects.filter(code=supplier).exists():
            codes = ", ".join(Supplier.objects.filter(kind="parts").values_list("code", flat=True))
            raise CommandError(f"there is no supplier {supplier!r}; there are: {codes}")
        content, name = _content(options["file"]), Path(options["file"]).name
        try:
            reading = _reading(content, name, supplier)
            given = read_price_list(content, name, reading)
            with transaction.atomic():
                row = self._taken(options, name, content, reading, given, today)
                self.stdout.write(in_words(row))
                transaction.set_rollback(options["dry_run"])
        except (FileFault, Refused) as refused:
            self.stderr.write(f"{refused}\nNothing was taken in.")
            sys.exit(BAD_INPUT)
        if options["dry_run"]:
            self.stdout.write("Nothing was changed.")

    def _taken(
        self,
        options: dict[str, Any],
        name: str,
        content: bytes,
        reading: Reading,
        given: ReadList,
        today: date,
    ) -> PriceList:
        now = timezone.now()
        row = hand_in(supplier=options["supplier"], name=name, content=content, by=None, now=now)
        row = keep_reading(pk=row.pk, reading=reading.model_dump(mode="json"), whole=not options["part"])
        row = check_list(pk=row.pk, given=given, on=options["from_day"] or today, now=now)
        self._say_refused(given.rejected, row)
        for line in effect_in_words(effect_of(row, today)):
            self.stdout.write(line)
        if options["dry_run"] or not written(row.counts):
            return row
        return take_list(pk=row.pk, given=given, by=None, on=today, now=now)

    def _say_refused(self, rejected: tuple[Rejected, ...], row: PriceList) -> None:
        told = [(one.line, one.column, one.value, one.reason, one.allowed) for one in rejected]
        told += [tuple(one) for one in row.found["refused"]]
        for line, column, value, reason, allowed in told[:SHOWN]:
            self.stderr.write(f"line {line}, {column}: {value!r} {reason}; {allowed}")
        if len(told) > SHOWN:
            self.stderr.write(f"and {len(told) - SHOWN} more")


def _content(name: str) -> bytes:
    try:
        with Path(name).open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        raise CommandError(f"{name} can't be read: {error.strerror}") from error


def _reading(content: bytes, name: str, supplier: str) -> Reading:
    """As the supplier's last list was read, else as it looks. FileFault where it can't be read."""
    kept = ListTerms.objects.filter(supplier=supplier).values_list("reading", flat=True).first()
    return suggest(content, name, Reading.model_validate(kept) if kept else None).reading
