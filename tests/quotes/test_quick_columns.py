"""Columns are put into words and read back in the tests as they are in the workshop."""

from __future__ import annotations

from typing import Any

import pytest
from django.apps import apps
from django.db import connection
from django.db.models import Model, QuerySet
from django.db.models.sql.compiler import SQLCompiler

from tests.quick_columns import PLAIN

pytestmark = pytest.mark.django_db


def asked(rows: QuerySet[Model]) -> tuple[Any, ...]:
    """The statement, and what makes values of what comes back."""
    compiler = rows.query.get_compiler(connection=connection)
    statement = compiler.as_sql()
    made = compiler.get_converters([column for column, *_ in compiler.select])
    names = {place: [getattr(one, "__qualname__", one) for one in each] for place, (each, _) in made.items()}
    return statement, names


def test_every_table_with_all_that_it_refers_to_is_read_as_django_reads_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    tables = [model._base_manager.select_related().order_by("pk") for model in apps.get_models()]

    def all_asked() -> list[Any]:
        return [asked(rows.all()) for rows in tables for _ in range(2)]

    quick = all_asked()
    for name, plain in PLAIN.items():
        monkeypatch.setattr(SQLCompiler, name, plain)

    assert quick == all_asked()
