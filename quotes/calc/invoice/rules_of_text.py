"""Texts that XML can't hold: control characters that came in by pasting, each with the field it stands in."""

from __future__ import annotations

import re
from collections.abc import Iterator

from catalogue.calc.said import say, to_say
from quotes.calc.invoice.faults import EInvoiceFault
from quotes.calc.invoice.values import InvoiceSheet
from quotes.calc.sheet.issued_values import Party

UNFIT = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""All that is no Char of XML 1.0."""


ADJUSTED = {"allowance": to_say("allowance"), "charge": to_say("charge")}
_OF_WORKSHOP = (
    to_say("name of the workshop"),
    to_say("address of the workshop"),
    to_say("telephone of the workshop"),
    to_say("e-mail of the workshop"),
    to_say("tax number of the workshop"),
)
_OF_CUSTOMER = (
    to_say("name of the customer"),
    to_say("address of the customer"),
    to_say("telephone of the customer"),
    to_say("e-mail of the customer"),
    to_say("tax number of the customer"),
)


def text_faults(sheet: InvoiceSheet) -> Iterator[EInvoiceFault]:
    """One fault for each field with such a character."""
    for field, text in _texts(sheet):
        if found := UNFIT.search(text):
            said = say(
                "holds the control character {character}: type it again without it",
                character=f"U+{ord(found.group()):04X}",
            )
            yield EInvoiceFault("XML", field, said)


def _texts(sheet: InvoiceSheet) -> Iterator[tuple[str, str]]:
    yield from _party(_OF_WORKSHOP, sheet.seller)
    yield from _party(_OF_CUSTOMER, sheet.buyer)
    yield say("payment terms"), sheet.payment_words
    yield say("account"), " ".join((sheet.account.name, sheet.account.iban, sheet.account.bic))
    yield say("reason"), sheet.reason
    yield say("notes"), " ".join(sheet.notes)
    for line in sheet.lines:
        reasons = (one.reason for one in line.adjustments)
        yield say("line {number}", number=line.number), " ".join((line.description, line.note, *reasons))
    for one in sheet.adjustments:
        yield say(ADJUSTED[one.kind]), one.reason
    for group in sheet.sums.tax_groups:
        yield say("tax code {code}", code=group.code), group.reason


def _party(fields: tuple[str, ...], party: Party) -> Iterator[tuple[str, str]]:
    lines = " ".join(party.lines)
    texts = party.name, lines, party.telephone, party.email, party.tax_registration
    yield from zip(map(say, fields), texts, strict=True)
