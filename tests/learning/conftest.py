"""The catalogue that ships stands under every test of this folder."""

from __future__ import annotations

import pytest

from tests.shipped import load_shipped


@pytest.fixture(autouse=True)
def catalogue(db: None) -> None:
    load_shipped()
