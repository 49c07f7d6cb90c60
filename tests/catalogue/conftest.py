"""The shipped catalogue in the test database."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from catalogue.actions.load import load_rows
from tests.cast import shipped_rows

NOW = datetime(2027, 2, 1, 9, 0, tzinfo=UTC)


@pytest.fixture
def loaded(db: None) -> None:
    """The catalogue that ships, loaded."""
    load_rows(rows=shipped_rows(), now=NOW)
