"""The leave to strip on paper."""

from __future__ import annotations

import io
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from pypdf import PdfReader

from quotes.calc.bench.teardown.leave_sheet import LeaveSheet
from quotes.calc.sheet.issued_values import Party
from quotes.documents.bench.leave import leave_context, leave_pdf


def sheet(**change: Any) -> LeaveSheet:
    fields: dict[str, Any] = {
        "number": "J-2026-0004",
        "workshop": Party(name="Sorrel Yard Engines", lines=("4 Sorrel Yard", "Anyborough")),
        "customer": Party(name="Marel Otten"),
        "engine_name": "600 four",
        "engine_number": "H4-20417",
        "tag": "blue 2",
        "paper": "A4",
        "currency": "EUR",
        "decimals": 2,
        "on": date(2026, 11, 25),
        "price": Decimal(940),
        "put_back": Decimal(1570),
        "deposit": Decimal(470),
        "credited_if_ahead": True,
        "if_not": "in_boxes",
    }
    return LeaveSheet(**(fields | change))


def test_a_paper_without_a_name_has_a_place_to_sign() -> None:
    text = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(leave_pdf(sheet()))).pages)
    assert "Signature" in text
    assert "€940.00" in text
    assert "blue 2" in text


def test_who_gave_leave_stands_with_how_and_the_number_called() -> None:
    given = sheet(
        name="Marel Otten",
        right="owner",
        how="by telephone, written down by us",
        telephone="000 555 0199",
        written_by="Dessa Quill",
    )
    assert str(leave_context(given)["given"]).replace("\N{NO-BREAK SPACE}", " ") == (
        "Marel Otten, owner, gave leave on 25 November 2026 by telephone, written down by us, "
        "number called 000 555 0199. Written down by Dessa Quill."
    )


@pytest.mark.parametrize(
    ("if_not", "said"),
    [("reassembled", "put back as it was for €1,570.00"), ("in_boxes", "in boxes"), ("scrapped", "scrapped")],
)
def test_what_happens_on_a_no_names_its_price(if_not: str, said: str) -> None:
    words = str(leave_context(sheet(if_not=if_not))["if_not"])
    assert said in words
    assert "€940.00" in words
