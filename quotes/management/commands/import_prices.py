"""Takes in a supplier's price list, all of it or nothing; with --dry-run it only says what it would do."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, ArgumentTypeError
from datetime import date
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import OperationalError, transaction
from django.utils import timezone

from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.handing_in import hand_in, keep_reading
from catalogue.actions.price_list.taking import take_list
from catalogue.actions.refused import Refused
from catalogue.calc.price_list.reading import Reading, ReadList
from catalogue.calc.price_list.shown import written
from catalogue.models import ListTerms, PriceList, Supplier
from quotes.imports.faults import FileFault
from quotes.imports.price_list.limits import MOST_BYTES
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.sample import Suggested
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
        parser.add_argument("--from", dest="from_day", type=_day, help="in force from that day: YYYY-MM-DD")
        parser.add_argument("--part", action="store_true", help="what it leaves out is not gone")
        parser.add_argument("--dry-run", action="store_true", help="change nothing")

    def handle(self, *args: Any, **options: Any) -> None:
        supplier, today = options["supplier"], timezone.localdate()
        if not Supplier.objects.filter(code=supplier).exists():
            codes = ", ".join(Supplier.objects.filter(kind="parts").values_list("code", flat=True))
            raise CommandError(f"there is no supplier {supplier!r}; there are: {codes}")
        content, name = _content(options["file"]), Path(options["file"]).name
        try:
            found = _suggested(content, name, supplier)
            given = read_price_list(content, name, found.reading)
            with transaction.atomic():
                row = self._taken(options, name, content, found, given, today)
                self.stdout.write(in_words(row))
                transaction.set_rollback(options["dry_run"])
        except (FileFault, Refused) as refused:
            self.stderr.write(f"{refused}\nNothing was taken in.")
            sys.exit(BAD_INPUT)
        except (OSError, OperationalError) as error:
            raise CommandError(f"{name} can't be kept: {error}. Nothing was taken in.") from error
        if options["dry_run"]:
            self.stdout.write("Nothing was changed.")

    def _taken(
        self,
        options: dict[str, Any],
        name: str,
        content: bytes,
        found: Suggested,
        given: ReadList,
        today: date,
    ) -> PriceList:
        now = timezone.now()
        row = hand_in(supplier=options["supplier"], name=name, content=content, by=None, now=now)
        whole = not (options["part"] or found.refused_before)
        row = keep_reading(pk=row.pk, reading=found.reading.model_dump(mode="json"), whole=whole)
        row = check_list(pk=row.pk, given=given, on=options["from_day"] or today, now=now)
        for caution in (*found.cautions, *given.cautions):
            self.stderr.write(f"Look at this: {caution}")
        self._say_refused(row)
        for line in effect_in_words(effect_of(row, today)):
            self.stdout.write(line)
        if options["dry_run"] or not written(row.counts):
            return row
        return take_list(pk=row.pk, given=given, by=None, on=today, now=now)

    def _say_refused(self, row: PriceList) -> None:
        for line, column, value, reason, allowed in row.found["refused"][:SHOWN]:
            self.stderr.write(f"line {line}, {column}: {value!r} {reason}; {allowed}")
        if (more := row.counts["refused"] - SHOWN) > 0:
            self.stderr.write(f"and {more:,} more")


def _content(name: str) -> bytes:
    try:
        with Path(name).open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        raise CommandError(f"{name} can't be read: {error.strerror}") from error


def _day(typed: str) -> date:
    try:
        return date.fromisoformat(typed)
    except ValueError:
        raise ArgumentTypeError(f"{typed!r} is no day; allowed is YYYY-MM-DD, such as 2027-01-31") from None


def _suggested(content: bytes, name: str, supplier: str) -> Suggested:
    """As the supplier's last list was read, else as it looks. FileFault where it can't be read."""
    kept = ListTerms.objects.filter(supplier=supplier).values_list("reading", flat=True).first()
    found = suggest(content, name, Reading.model_validate(kept) if kept else None)
    if found.reading.missing:
        raise FileFault(
            "No column of part numbers and one of prices could be found in it. Hand it in on the site once "
            "and choose them there: the supplier's next list is read the same way here."
        )
    return found
