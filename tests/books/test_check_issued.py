"""What is issued through the books passes the published rules, asked about by its number."""

from __future__ import annotations

from decimal import Decimal
from io import StringIO

import pytest
from django.core.management import call_command

from quotes.documents.invoice.embedded import embedded_xml
from quotes.models import Acceptance
from tests.books import cast

# Issuing is tested on both; here the papers that come of it are read.
pytestmark = pytest.mark.one_database


def asked(*numbers: str) -> tuple[int, list[str], str]:
    """The exit code, the lines of findings, and what stands on the error stream."""
    out, err, code = StringIO(), StringIO(), 0
    try:
        call_command("check_einvoice", *numbers, stdout=out, stderr=err)
    except SystemExit as left:
        code = int(str(left.code))
    return code, out.getvalue().splitlines(), err.getvalue()


def test_deposit_invoice_final_invoice_and_credit_note_of_a_build_are_sound(
    build: Acceptance, real_files: None
) -> None:
    cast.extra_work(build)
    deposit = cast.deposited(build)
    final = cast.invoiced(build, now=cast.LATER)
    credit = cast.credited(final, {1: "0.5"}, now=cast.LATER)
    numbers = [row.number for row in (deposit, final, credit)]

    assert asked(*numbers) == (0, [f"{number}: no finding" for number in numbers], "")
    for row in (deposit, final, credit):
        assert row.xml is not None
        assert embedded_xml(bytes(row.pdf.content)) == bytes(row.xml.content)


def test_a_number_that_was_never_issued_is_said(db: None) -> None:
    code, lines, errors = asked("I-2026-9999")

    assert (code, lines) == (2, [])
    assert errors == "I-2026-9999: there is no such file, and no invoice of that number has been issued\n"


def test_an_invoice_with_sales_tax_has_no_xml_to_ask_about(db: None) -> None:
    cast.sales_tax_shop()
    number = cast.invoiced(cast.build(limit=Decimal(5000))).number

    code, lines, errors = asked(number)

    assert (code, lines) == (2, [])
    assert errors == f"{number}: was issued without XML, as a workshop that charges sales tax does\n"
