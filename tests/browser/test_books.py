"""The bookkeeper's day in a real browser: who is late, a part paid, the quarter handed to the accounts."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from io import BytesIO
from pathlib import Path

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Page, expect
from python_calamine import CalamineWorkbook

from quotes.models import ExportBatch, Invoice, OpenItem, Payment
from tests.books import cast
from tests.browser.chromium import DESK, PHONE
from tests.browser.conftest import OpenPage
from tests.browser.steps import sheet_is_sound, sign_in

SIZES = pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])


@pytest.fixture
def late(transactional_db: None) -> Invoice:
    """A mild build invoiced seventy days ago in three lines of work, and not paid since."""
    cast.keep_settings(payment_days=14)
    return cast.invoiced(cast.build(), now=timezone.now() - timedelta(days=70))


@SIZES
def test_who_is_late_pays_a_part_and_the_quarter_leaves_once(
    open_page: OpenPage, late: Invoice, size: tuple[int, int]
) -> None:
    page = open_page(size)
    sign_in(page, "books")
    a_part_is_paid(page, late)
    batch = the_quarter_is_exported(page)
    the_workbook_holds(page, batch, late)
    nothing_new_is_left(page, batch)


def a_part_is_paid(page: Page, late: Invoice) -> None:
    """From the overdue list to the invoice, and a thousand of it taken."""
    page.goto(reverse("overdue"))
    expect(page.get_by_role("cell", name="56 days").or_(page.get_by_text("31 to 60")).first).to_be_visible()
    sheet_is_sound(page)
    page.get_by_role("link", name=late.number, exact=True).first.click()
    expect(page.get_by_role("link", name="Take a payment").first).to_be_visible()
    sheet_is_sound(page)
    page.get_by_role("link", name="Take a payment").first.click()
    page.get_by_label("How much?").fill("1000")
    page.get_by_label("How?", exact=True).select_option("transfer")
    sheet_is_sound(page)
    page.get_by_role("button", name="Take the payment").click()
    expect(page.get_by_role("link", name="Print the receipt")).to_be_visible()
    sheet_is_sound(page)
    assert Payment.objects.get().amount == Decimal(1000)
    assert OpenItem.objects.get(invoice=late).open_amount == cast.GROSS - 1000


def the_quarter_is_exported(page: Page) -> ExportBatch:
    """Everything that is new: the invoice of last quarter and the payment of today."""
    page.goto(reverse("export-new"))
    sheet_is_sound(page)
    page.get_by_role("button", name="Export all new").click()
    page.get_by_text("Ready.").wait_for()
    sheet_is_sound(page)
    return ExportBatch.objects.get()


def the_workbook_holds(page: Page, batch: ExportBatch, late: Invoice) -> None:
    """It opens in another library, and says of the invoice what the invoice says."""
    with page.expect_download() as fetched:
        page.get_by_role("link", name="Fetch the workbook").click()
    content = Path(fetched.value.path()).read_bytes()
    assert batch.workbook is not None
    assert content == bytes(batch.workbook.content)
    book = CalamineWorkbook.from_filelike(BytesIO(content))
    rows = book.get_sheet_by_name("Sales journal").to_python()
    row = next(row for row in rows if late.number in row)
    assert float(late.gross) in row


def nothing_new_is_left(page: Page, batch: ExportBatch) -> None:
    page.goto(reverse("export-new"))
    expect(page.get_by_text(f"Nothing new since {batch.number}")).to_be_visible()
    sheet_is_sound(page)
    assert ExportBatch.objects.count() == 1
