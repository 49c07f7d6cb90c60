"""Fixtures for tests of invoices and the books: files that are drawn at once, and an accepted build."""

from __future__ import annotations

from collections.abc import Iterator
from types import SimpleNamespace

import pytest
from django.test import Client

from quotes.actions.books import drawing
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import Acceptance
from quotes.queries.books.ledger_faults import ledger_faults
from tests.books import cast
from tests.cast import desk


def plain_files(sheet: InvoiceSheet) -> SimpleNamespace:
    """What a PDF and an XML stand for where nobody looks at them."""
    xml = b"<Invoice/>" if sheet.tax_style == "value-added-tax" else None
    return SimpleNamespace(pdf=f"%PDF {sheet.number} {sheet.sums.due}".encode(), xml=xml)


@pytest.fixture(autouse=True)
def quick_files(monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> None:
    """Files of a few bytes, unless the test is marked `real_files`."""
    if "real_files" not in request.fixturenames:
        monkeypatch.setattr(drawing, "drawn", plain_files)
        monkeypatch.setattr(drawing, "warm_up", lambda: None)


@pytest.fixture
def build(db: None) -> Acceptance:
    """A mild build that Marel Otten has accepted, in a workshop with value added tax."""
    return cast.build()


@pytest.fixture
def at_desk(client: Client, db: None) -> Client:
    """The desk, signed in."""
    client.force_login(desk())
    return client


@pytest.fixture
def real_files() -> None:
    """The test looks at the files themselves, so they are drawn."""


@pytest.fixture
def sound_ledger(db: None) -> Iterator[None]:
    """Whatever the test does, the ledger agrees with itself and its documents when it ends."""
    yield
    assert ledger_faults() == ()
