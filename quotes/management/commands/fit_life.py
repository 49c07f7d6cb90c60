"""Fits a Weibull life to the ages in a file and prints it as JSON; reads and writes no database."""

from __future__ import annotations

import json
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from quotes.calc.ask.fault import BadRequest
from quotes.calc.life.fit_answer import answer
from quotes.calc.life.life_data import read_life_data
from quotes.management.json_file import load_json

BAD_INPUT = 2
"""Exit status, as of the other sums without the site."""


class Command(BaseCommand):
    """`fit_life DATA.json`: shape, characteristic life and their bounds as JSON on standard output."""

    help = __doc__ or ""
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("data", help="file with the ages in JSON, or - for standard input")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            found = answer(read_life_data(load_json(options["data"])))
        except BadRequest as error:
            faults = "\n".join(str(fault) for fault in error.faults)
            raise CommandError(faults, returncode=BAD_INPUT) from error
        self.stdout.write(json.dumps(found.as_json(), indent=2))
