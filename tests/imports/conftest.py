"""The shipped catalogue in the test database, for files that name its codes."""

from __future__ import annotations

import pytest

from tests.shipped import load_shipped


@pytest.fixture
def loaded(db: None) -> None:
    """The catalogue that ships, loaded."""
    load_shipped()
