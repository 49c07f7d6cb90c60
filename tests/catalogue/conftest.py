"""The shipped catalogue in the test database."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from tests.shipped import load_shipped

NOW = datetime(2027, 2, 1, 9, 0, tzinfo=UTC)


@pytest.fixture
def loaded(db: None) -> None:
    """The catalogue that ships, loaded."""
    load_shipped()
