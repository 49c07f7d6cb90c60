"""Asks the published rules of EN 16931 about electronic invoices: files, or numbers of issued ones."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand
from django.db import OperationalError, ProgrammingError

from quotes.documents.invoice.einvoice_check import CheckerMissing, NotAnInvoice, findings
from quotes.documents.invoice.embedded import embedded_xml
from quotes.models import Invoice

SOUND, FOUND, NOT_CHECKED = 0, 1, 2


class Command(BaseCommand):
    """`check_einvoice WHAT...`: a line for each finding; exits 1 where there is one, 2 where it can't ask."""

    help = __doc__ or ""
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("what", nargs="+", help="PDF or XML file, or number of an issued invoice")

    def handle(self, *args: Any, **options: Any) -> None:
        worst = max(self._checked(what) for what in options["what"])
        if worst != SOUND:
            sys.exit(worst)

    def _checked(self, what: str) -> int:
        try:
            found = [str(finding) for finding in findings(_xml_of(what))]
        except (CheckerMissing, NotAnInvoice, OSError, LookupError) as error:
            self.stderr.write(f"{what}: {error}")
            return NOT_CHECKED
        for line in found or ["no finding"]:
            self.stdout.write(f"{what}: {line}")
        return FOUND if found else SOUND


def _xml_of(what: str) -> bytes:
    """The XML of a file, or the stored one of an issued invoice. LookupError says why there is none."""
    path = Path(what)
    content = path.read_bytes() if path.is_file() else _stored(what)
    return embedded_xml(content) if content.startswith(b"%PDF") else content


def _stored(number: str) -> bytes:
    try:
        invoice = Invoice.objects.select_related("xml").defer("sheet").filter(number=number).first()
    except (OperationalError, ProgrammingError) as error:
        raise LookupError(f"there is no such file, and the database can't be read ({error})") from None
    if invoice is None:
        raise LookupError("there is no such file, and no invoice of that number has been issued")
    if invoice.xml is None:
        raise LookupError("was issued without XML, as a workshop that charges sales tax does")
    return bytes(invoice.xml.content)
