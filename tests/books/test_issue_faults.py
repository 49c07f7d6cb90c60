"""What goes wrong while a document is issued: nothing is issued then, and no number is used."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from quotes.actions.books import drawing, issuing
from quotes.actions.books.months import lock_month
from quotes.actions.books.numbers import series_number
from quotes.actions.books.refused import EInvoiceRefused
from quotes.actions.books.refused_months import MonthClosed
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import Acceptance, Counter, Invoice, JournalEntry, OpenItem, StoredFile
from tests.books import cast
from tests.books.cast import LATER, NOW
from tests.cast import books
from tests.written_again import make_anew


def nothing_was_issued(numbers: int = 0) -> None:
    counter = Counter.objects.filter(kind="I").first()
    assert (counter.value if counter else 0) == numbers
    assert Invoice.objects.count() == numbers
    assert OpenItem.objects.count() == numbers
    assert JournalEntry.objects.filter(source="invoice").count() == numbers


def failing(*_: Any, **__: Any) -> None:
    raise ArithmeticError("broken")


def test_a_document_whose_files_fail_is_not_issued_and_the_field_to_mend_is_named(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(sheet: InvoiceSheet) -> SimpleNamespace:
        raise EInvoiceRefused("BR-9", "seller_country", "The workshop has no country.")

    monkeypatch.setattr(drawing, "drawn", refused)

    with pytest.raises(EInvoiceRefused, match=r"Nothing was issued\. seller_country: .*BR-9"):
        cast.invoiced(build)

    nothing_was_issued()


def test_a_fault_of_the_drawing_itself_is_told_with_its_rule_and_field(
    build: Acceptance, real_files: None
) -> None:
    cast.keep_settings(country="")

    with pytest.raises(EInvoiceRefused) as told:
        cast.invoiced(build)

    assert (told.value.rule, "country" in told.value.field) == ("BR-09", True)
    nothing_was_issued()


def test_the_number_is_used_by_the_document_that_is_issued_next(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    draft = cast.drafted(build)
    with monkeypatch.context() as broken:
        broken.setattr(drawing, "drawn", failing)
        with pytest.raises(ArithmeticError):
            cast.issue(draft)

    assert cast.issue(draft).number == "I-2026-0001"


@pytest.mark.parametrize(
    "step", ["open_invoice_item", "post", "invoice_entry", "finally_invoiced", "settle_cost_of_sales"]
)
def test_whatever_step_fails_takes_everything_back(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    monkeypatch.setattr(issuing, step, failing)
    make_anew()

    with pytest.raises(ArithmeticError):
        cast.invoiced(build)

    nothing_was_issued()
    assert not StoredFile.objects.filter(name__startswith="I-").exists()


def test_a_document_is_not_issued_into_a_closed_month(build: Acceptance) -> None:
    draft = cast.drafted(build)
    lock_month(month=NOW.date().replace(day=1), by=books(), now=LATER)

    with pytest.raises(MonthClosed, match="25 November 2026 is in a month that is closed"):
        cast.issue(draft)

    nothing_was_issued()


def test_a_real_document_is_drawn_once_and_kept(build: Acceptance, real_files: None) -> None:
    invoice = cast.invoiced(build)

    assert bytes(invoice.pdf.content).startswith(b"%PDF-")
    assert invoice.xml is not None
    assert b"<ram:ID>I-2026-0001</ram:ID>" in bytes(invoice.xml.content)
    assert invoice.pdf.is_sound
    assert invoice.xml.is_sound


def test_what_draws_is_imported_before_the_counter_is_locked(
    build: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    order: list[str] = []

    def noted(name: str, then: Callable[..., Any]) -> Callable[..., Any]:
        def call(*args: Any, **options: Any) -> Any:
            order.append(name)
            return then(*args, **options)

        return call

    monkeypatch.setattr(drawing, "warm_up", noted("import", lambda: None))
    monkeypatch.setattr(issuing, "series_number", noted("number", series_number))
    make_anew()

    cast.invoiced(build)

    assert order == ["import", "number"]
