"""Sums up one document from a file as our invoices are summed; reads and writes no database."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand

from quotes.calc.ask.fault import BadRequest
from quotes.calc.invoice.totals_case import is_list_of_cases, read_case, totals_of, totals_of_all
from quotes.management.json_file import load_json

BAD_INPUT = 2


class Command(BaseCommand):
    """`totals CASE.json`: line nets, BT-106 to BT-115 and the tax groups as JSON on standard output."""

    help = __doc__ or ""
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("case", help="file with one case in JSON, or a whole list; - for standard input")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            raw = load_json(options["case"])
            totals: object = totals_of_all(raw) if is_list_of_cases(raw) else totals_of(read_case(raw))
        except BadRequest as error:
            for fault in error.faults:
                self.stderr.write(str(fault))
            sys.exit(BAD_INPUT)
        self.stdout.write(json.dumps(totals, indent=2))
