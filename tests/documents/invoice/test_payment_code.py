"""The payment code field by field (EPC069-12), and when there is none.

The code is told from its modules: they are those of the one text that the guideline asks for, of no other.
"""

from __future__ import annotations

import io
import re
from typing import Any

import pytest
import segno

from quotes.calc.invoice.values import Account, InvoiceSheet
from quotes.documents.invoice.payment_code import may_be_coded, payment_code
from tests.documents.invoice.sheets import ACCOUNT, credit_note, deposit_taken_off, line, sheet

FIELDS = {
    "service tag": "BCD",
    "version": "002",
    "character set, 1 is UTF-8": "1",
    "identification": "SCT",
    "BIC": "QRYWIE20",
    "name": "Quarry Row Engines",
    "IBAN": "IE74QRYW00014200000142",
    "amount": "EUR120",
    "purpose": "",
    "reference": "",
    "text": "I-2026-0042",
}


def drawn(**fields: str) -> str:
    """The code that these fields make, at the level of correction that the guideline asks for."""
    payload = "\n".join({**FIELDS, **fields}.values()).encode()
    out = io.BytesIO()
    code = segno.make(payload, error="m", boost_error=False, micro=False, mode="byte")
    code.save(
        out, kind="svg", omitsize=True, border=2, xmldecl=False, nl=False, svgclass=None, lineclass=None
    )
    return out.getvalue().decode()


def paid(**change: Any) -> InvoiceSheet:
    return sheet(**change)


def test_the_code_holds_account_sum_and_number_field_by_field() -> None:
    assert payment_code(paid()) == drawn()


@pytest.mark.parametrize("field", FIELDS)
def test_another_text_in_any_field_would_be_another_code(field: str) -> None:
    assert payment_code(paid()) != drawn(**{field: "ZZZZ"})


def test_cents_are_in_it_and_what_was_paid_before_is_not() -> None:
    assert payment_code(sheet(line("1", "100.01"))) == drawn(amount="EUR120.01")
    assert payment_code(sheet(line(), deposit_taken_off("50"))) == drawn(amount="EUR60")


@pytest.mark.parametrize(
    ("account", "fields"),
    [
        ({"bic": ""}, {"BIC": ""}),
        ({"bic": "NO BANK"}, {"BIC": ""}),
        ({"iban": "IE74 QRYW 0001 4200 0001 42"}, {}),
        ({"name": ""}, {}),
        ({"name": "Brüder  Ωmega\nMotoren"}, {"name": "Brüder Ωmega Motoren"}),
        ({"name": "E" * 90}, {"name": "E" * 70}),
    ],
)
def test_what_was_typed_is_put_as_the_guideline_asks(account: dict[str, str], fields: dict[str, str]) -> None:
    typed = ACCOUNT.model_copy(update=account)

    assert payment_code(paid(account=typed)) == drawn(**fields)


@pytest.mark.parametrize(
    "iban",
    [
        "",
        "IE75QRYW00014200000142",
        "IE74QRYW0001420000014",
        "XX74QRYW00014200000142",
        "IE74QRYW00014200000124",
    ],
)
def test_an_account_that_does_not_hold_has_no_code(iban: str) -> None:
    assert payment_code(paid(account=Account(iban=iban, name="Quarry Row Engines"))) == ""


@pytest.mark.parametrize(
    ("made", "coded"),
    [
        (sheet(currency="USD"), False),
        (credit_note(line()), False),
        (sheet(line(), deposit_taken_off("100")), False),
        (sheet(line(), deposit_taken_off("350")), False),
        (sheet(line("1", "0.01", "zero")), True),
        (sheet(line("1000", "999999.99", "zero")), True),
        (sheet(line("1001", "999999.99", "zero")), False),
    ],
)
def test_there_is_a_code_where_the_guideline_can_say_the_sum(made: InvoiceSheet, coded: bool) -> None:
    assert may_be_coded(made) is coded
    assert (payment_code(made) != "") is coded


def test_the_code_is_a_picture_without_a_size_or_a_link_of_its_own() -> None:
    code = payment_code(paid())

    assert code.startswith("<svg")
    assert not re.search(r"href|style=|<script", code)
