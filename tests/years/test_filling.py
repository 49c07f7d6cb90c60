"""Invented years are as sound as what people have written."""

from __future__ import annotations

from collections import Counter
from types import SimpleNamespace

import pytest

from catalogue.models.file_store import SMALL_BYTES
from quotes.actions.books import drawing
from quotes.actions.years import taking
from quotes.actions.years.filling import MARK, NotForYears, fill
from quotes.actions.years.listed import list_parts
from quotes.models import (
    Acceptance,
    AuditEntry,
    Invoice,
    Payment,
    PurchaseOrder,
    Quote,
    StoredFile,
    TaxStyle,
    Workshop,
)
from quotes.queries.record.checks import CHECKS
from tests.cast import owner
from tests.quotes import cast
from tests.quotes.cast import NOW

pytestmark = pytest.mark.django_db
QUOTES = 40


@pytest.fixture(autouse=True)
def one_engine_type_without_papers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(taking, "CUTS", taking.CUTS[:1])
    paper = SimpleNamespace(pdf=b"%PDF".ljust(SMALL_BYTES), xml=None)
    monkeypatch.setattr(drawing, "drawn", lambda sheet: paper)
    monkeypatch.setattr(drawing, "warm_up", lambda: None)


@pytest.fixture
def demo() -> Workshop:
    """A workshop in a demo's style, with nothing traded."""
    return cast.workshop(version=1, demo_style=TaxStyle.SALES_TAX)


def test_every_check_of_the_record_finds_them_sound(demo: Workshop) -> None:
    fill(quotes=QUOTES, seed=1, by=owner(), now=NOW)
    list_parts(parts=8, seed=1, by=owner(), now=NOW)

    faults = [str(fault) for check in CHECKS for found in check.look() for fault in found]
    assert faults == []
    assert Quote.objects.count() == pytest.approx(QUOTES, abs=5)
    assert Invoice.objects.count() == Acceptance.objects.exclude(done_at=None).count() == QUOTES // 2
    assert Payment.objects.count() == Invoice.objects.filter(item__open_amount=0).count()
    assert {order.done_at is None for order in PurchaseOrder.objects.all()} == {True, False}
    states = Counter(quote.state for quote in Quote.objects.with_state(NOW.date()))
    assert states.keys() == {"draft", "issued", "asked", "lapsed", "declined", "accepted"}
    for state, many in states.items():
        assert Quote.objects.in_state(state, NOW.date()).count() == many
    assert StoredFile.objects.filter(name=MARK).count() == 1
    last = Quote.objects.latest("pk").pk
    assert cast.draft(cast.engine(cast.customer())).pk > last
    assert AuditEntry.objects.filter(action="loaded").count() == 1


def test_a_workshop_of_ones_own_is_left_alone() -> None:
    cast.workshop(version=1)
    with pytest.raises(NotForYears, match="empty database only"):
        fill(quotes=QUOTES, seed=1, by=owner(), now=NOW)


def test_a_demo_in_which_something_was_entered_is_left_alone(demo: Workshop) -> None:
    cast.customer("Marel Otten")
    with pytest.raises(NotForYears, match="holds a workshop already"):
        fill(quotes=QUOTES, seed=1, by=owner(), now=NOW)
