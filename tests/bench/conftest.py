"""Fixtures that the tests of the bench share: invoices are issued without their files being drawn."""

from __future__ import annotations

import pytest
from django.test import Client

from quotes.models import Job
from tests.bench.cast import built_job
from tests.books.conftest import quick_files
from tests.cast import builder
from tests.shipped import load_shipped

__all__ = ["quick_files"]


@pytest.fixture
def of(db: None) -> Job:
    """A job whose quote was said yes to, with the catalogue that ships."""
    load_shipped()
    return built_job()


@pytest.fixture
def at_bench(client: Client, of: Job) -> Client:
    """The builder, signed in."""
    client.force_login(builder())
    return client
