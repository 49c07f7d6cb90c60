"""The receipt of a payment: who paid what, how, for what, and what is still open."""

from __future__ import annotations

from decimal import Decimal
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from quotes.documents.invoice import payment_receipt_pdf
from quotes.documents.invoice.receipt import receipt_context
from tests.documents.invoice.paper_text import text
from tests.documents.invoice.payments import receipt


@pytest.fixture(scope="module")
def drawn() -> bytes:
    return payment_receipt_pdf(receipt())


def lead(**change: object) -> str:
    return str(receipt_context(receipt(**change))["lead"]).replace("\N{NO-BREAK SPACE}", " ")


def test_it_says_who_paid_what_when_and_how(drawn: bytes) -> None:
    words = text(drawn)
    assert "Quarry Row Engines received €1,500.00 from Kaja Brenner on 25 November 2026" in words
    for told in ("R-2026-0107", "Bank transfer", "Q-2026-0312, H4-31870", "Orla Fenwick", "page 1 of 1"):
        assert told in words


def test_it_says_what_is_settled_what_is_still_open_and_what_is_over(drawn: bytes) -> None:
    words = text(drawn)
    assert "Invoice I-2026-0004 2 October 2026 1,100.00 nothing" in words
    assert "Deposit invoice D-2026-0007 2 November 2026 250.00 1,250.00" in words
    assert "On account, for later invoices 150.00" in words
    assert "Received 1,500.00" in words


def test_it_is_tagged_and_the_same_each_time(drawn: bytes) -> None:
    catalog: Any = PdfReader(BytesIO(drawn)).trailer["/Root"]
    assert "/StructTreeRoot" in catalog
    assert payment_receipt_pdf(receipt()) == drawn


def test_cash_is_taken_in_cash_and_a_card_by_card() -> None:
    assert lead(method="cash").endswith("in cash.")
    assert lead(method="card").endswith("by card.")


def test_money_paid_back_goes_the_other_way() -> None:
    said = lead(kind="refund", method="bank transfer")
    assert (
        said
        == "Quarry Row Engines paid €1,500.00 back to Kaja Brenner on 25 November 2026, by bank transfer."
    )


def test_a_payment_that_did_not_hold_is_named() -> None:
    said = lead(kind="reversal", reverses="R-2026-0099")
    assert said.startswith("On 25 November 2026 payment R-2026-0099 of €1,500.00 from Kaja Brenner is taken")


def test_a_deposit_says_that_it_is_held_and_bears_no_tax() -> None:
    more = receipt_context(receipt(deposit=True, settled=()))["more"]
    assert more[0].startswith("It is a deposit for the build of quote Q-2026-0312, held until")
    assert more[0].endswith("No tax has been charged on it.")


@pytest.mark.parametrize(
    ("currency", "decimals", "amount", "told"),
    [
        ("HUF", 0, "150000", "HUF 150,000"),
        ("KWD", 3, "1500.125", "KWD 1,500.125"),
        ("USD", 2, "0.5", "$0.50"),
    ],
)
def test_sums_have_the_decimals_of_their_currency(
    currency: str, decimals: int, amount: str, told: str
) -> None:
    said = lead(currency=currency, decimals=decimals, amount=Decimal(amount), settled=())
    assert f" received {told} from " in said


def test_a_name_that_could_be_markup_is_only_a_name() -> None:
    customer = receipt().customer.model_copy(update={"name": "<b>Brenner</b> & sons"})
    assert "<b>Brenner</b> & sons" in text(payment_receipt_pdf(receipt(customer=customer, paper="Letter")))
