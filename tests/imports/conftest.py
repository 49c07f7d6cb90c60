"""The shipped catalogue in the test database, for files that name its codes."""

from __future__ import annotations

import pytest

from catalogue.actions.load import load_rows
from tests.cast import shipped_rows
from tests.quotes.cast import NOW


@pytest.fixture
def loaded(db: None) -> None:
    """The catalogue that ships, loaded."""
    load_rows(rows=shipped_rows(), now=NOW)
