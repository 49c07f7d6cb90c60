"""The enquiry card on paper."""

from __future__ import annotations

import io
from datetime import date

from pypdf import PdfReader

from quotes.calc.intake.enquiry_card import what_is_said
from quotes.calc.intake.enquiry_sheet import EnquirySheet
from quotes.calc.money.band import SpokenRule
from quotes.documents.enquiry_card import enquiry_context, enquiry_pdf
from tests.calc.test_enquiry_card import COMPARISON, diary
from tests.sample_sheet import CUSTOMER, ON, WORKSHOP

SHEET = EnquirySheet(
    number="E-2026-0007",
    kept_on=ON,
    kept_by="Dessa Quill",
    workshop=WORKSHOP,
    customer=CUSTOMER,
    engine_number="H4-20417",
    facts=(("Who called", "Marel Otten"), ("Fuel", "98 octane")),
    symptoms="Smokes on the overrun",
    note="Rings back on Friday",
    said=what_is_said(COMPARISON, diary(), SpokenRule(), needed_on=date(2030, 1, 1)),
)


def text_of(content: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages).split())


def test_the_card_is_one_page_with_band_week_and_strip_down() -> None:
    content = enquiry_pdf(SHEET)
    assert len(PdfReader(io.BytesIO(content)).pages) == 1
    paper = text_of(content)
    rows = enquiry_context(SHEET)["rows"]
    for row in rows:
        assert f"{row.low}\N{EN DASH}{row.high}" in paper
        assert " ".join(row.start.split()) in paper
    for words in (
        "subject to strip-down",
        "98 octane",
        "Smokes on the overrun",
        "Rings back on Friday",
        "in time",
    ):
        assert words in paper, words


def test_the_card_is_tagged_and_repeats_to_the_byte() -> None:
    content = enquiry_pdf(SHEET)
    assert enquiry_pdf(SHEET) == content
    reader = PdfReader(io.BytesIO(content))
    root = reader.root_object
    assert "/StructTreeRoot" in root
    assert "Enquiry E-2026-0007" in str(reader.metadata and reader.metadata.title)
