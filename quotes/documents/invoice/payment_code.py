"""The code that a banking app reads: the EPC's quick response code for a SEPA credit transfer (EPC069-12)."""

from __future__ import annotations

import io
from decimal import Decimal

from stdnum import bic as bic_number
from stdnum import iban as iban_number

from quotes.calc.invoice.values import InvoiceSheet

LEAST, MOST = Decimal("0.01"), Decimal("999999999.99")
NAME_LETTERS = 70


def payment_code(sheet: InvoiceSheet) -> str:
    """The code as SVG without a width of its own; empty where there is nothing to transfer in euro."""
    if not may_be_coded(sheet):
        return ""
    from segno import helpers

    code = helpers.make_epc_qr(
        name=" ".join((sheet.account.name or sheet.seller.name).split())[:NAME_LETTERS],
        iban=iban_number.compact(sheet.account.iban),
        bic=_bic(sheet.account.bic),
        amount=sheet.sums.due,
        text=sheet.remittance,
        encoding="utf-8",
    )
    out = io.BytesIO()
    plain = {"xmldecl": False, "nl": False, "svgclass": None, "lineclass": None}
    code.save(out, kind="svg", omitsize=True, border=2, **plain)
    return out.getvalue().decode()


def _bic(typed: str) -> str | None:
    """It may be left out (EPC069-12, version 002), which is better than one that no bank has."""
    return bic_number.compact(typed) if bic_number.is_valid(typed) else None


def may_be_coded(sheet: InvoiceSheet) -> bool:
    """Whether the code can say it: euro, an account that holds, and a sum within its limits."""
    return (
        sheet.currency == "EUR"
        and sheet.kind != "credit_note"
        and iban_number.is_valid(sheet.account.iban)
        and LEAST <= sheet.sums.due <= MOST
    )
