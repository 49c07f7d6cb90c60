"""Texts that XML can't hold: control characters that came in by pasting, each with the field it stands in."""

from __future__ import annotations

import re
from collections.abc import Iterator

from quotes.calc.invoice.faults import EInvoiceFault
from quotes.calc.invoice.values import InvoiceSheet
from quotes.calc.sheet.values import Party

UNFIT = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""All that is no Char of XML 1.0."""


def text_faults(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    """One fault for each field with such a character."""
    for field, text in _texts(sheet):
        if found := UNFIT.search(text):
            said = f"holds the control character U+{ord(found.group()):04X}: type it again without it"
            yield EInvoiceFault("XML", field, said)


def _texts(sheet: InvoiceSheet) -> Iterator[tuple[str, str]]:
    yield from _party("workshop", sheet.seller)
    yield from _party("customer", sheet.buyer)
    yield "payment terms", sheet.payment_words
    yield "account", " ".join((sheet.account.name, sheet.account.iban, sheet.account.bic))
    yield "reason", sheet.reason
    yield "notes", " ".join(sheet.notes)
    for line in sheet.lines:
        reasons = (one.reason for one in line.adjustments)
        yield f"line {line.number}", " ".join((line.description, line.note, *reasons))
    for one in sheet.adjustments:
        yield one.kind, one.reason
    for group in sheet.sums.tax_groups:
        yield f"tax code {group.code}", group.reason


def _party(whose: str, party: Party) -> Iterator[tuple[str, str]]:
    yield f"name of the {whose}", party.name
    yield f"address of the {whose}", " ".join(party.lines)
    yield f"telephone of the {whose}", party.telephone
    yield f"e-mail of the {whose}", party.email
    yield f"tax number of the {whose}", party.tax_registration
