"""Fixtures for tests of quotes: a workshop that is set up, a customer with an engine, a draft, a revision."""

from __future__ import annotations

import pytest

from quotes.models import Customer, Engine, Quote, Revision, Workshop
from tests.quotes import cast
from tests.shipped import load_shipped


@pytest.fixture
def workshop(db: None) -> Workshop:
    return cast.workshop()


@pytest.fixture
def catalogue(db: None) -> None:
    """The catalogue that ships, loaded."""
    load_shipped()


@pytest.fixture
def customer(db: None) -> Customer:
    return cast.customer()


@pytest.fixture
def engine(customer: Customer) -> Engine:
    return cast.engine(customer)


@pytest.fixture
def quote(workshop: Workshop, engine: Engine) -> Quote:
    """A draft."""
    return cast.draft(engine)


@pytest.fixture
def revision(quote: Quote) -> Revision:
    """The first revision of the draft, issued on 25 November 2026."""
    return cast.issued(quote)
