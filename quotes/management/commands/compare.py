"""Works out one request from a file and prints the options; writes nothing to the database."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import OperationalError, ProgrammingError
from django.utils import timezone

from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.read_request import read_request
from quotes.calc.ask.request import Request
from quotes.calc.origin.opened import every_figure
from quotes.calc.origin.worked import Way
from quotes.calc.sheet.sentences import honesty
from quotes.calc.sheet.values import Comparison
from quotes.documents.origins import origins_text
from quotes.documents.table import comparison_table
from quotes.management.json_file import load_json
from quotes.management.stray_output import stray_output_to_stderr
from quotes.queries.comparison import comparison_for, explained, explained_left

BAD_INPUT = 2


class Command(BaseCommand):
    """`compare REQUEST.json`: JSON on standard output, or a table for people."""

    help = __doc__ or ""

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("request", help="file with one request in JSON, or - for standard input")
        parser.add_argument("--format", choices=("json", "table"), default="json")
        parser.add_argument("--explain", action="store_true", help="where every number comes from, as text")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            request = read_request(load_json(options["request"]), timezone.localdate())
            with stray_output_to_stderr():
                comparison = comparison_for(request)
                told = _ways(request, comparison) if options["explain"] else []
        except BadRequest as error:
            for fault in error.faults:
                self.stderr.write(str(fault))
            sys.exit(BAD_INPUT)
        except (OperationalError, ProgrammingError) as error:
            first = "Run `manage.py migrate`, then `manage.py load_catalogue`."
            raise CommandError(f"The database can't be read ({error}). {first}") from error
        if told:
            self.stdout.write("\n".join(_opened(comparison, each) for each in told))
        elif options["format"] == "table":
            self.stdout.write(comparison_table(comparison), ending="")
        else:
            self.stdout.write(comparison.model_dump_json(indent=2))


def _ways(request: Request, comparison: Comparison) -> list[Way]:
    options = [explained(request, each) for each in comparison.options]
    return [explained_left(request, comparison.leave_it), *options]


def _opened(comparison: Comparison, told: Way) -> str:
    """All figures of one way with their parts."""
    title = f"{told.shown.name}: {comparison.engine_type_name}, {comparison.planned_in_words}"
    return origins_text(title, honesty(comparison), every_figure(told))
