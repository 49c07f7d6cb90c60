"""Fixtures that every test may use, and what all tests of a run share."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from typing import Any

import pytest
from django.db.backends.sqlite3.base import DatabaseWrapper

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.compare import compare
from quotes.calc.sheet.values import Comparison
from quotes.calc.shop import Shop
from quotes.models import frozen_triggers
from quotes.queries import comparison


class KeptComparisons:
    """What the site asks of the sums is worked out once in a run: they are pure and their answers frozen."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, int, str], tuple[Comparison, EngineCatalogue]] = {}

    def compare(self, request: Request, catalogue: EngineCatalogue, shop: Shop) -> Comparison:
        """What the sums say. The catalogue is kept along, so that its id stays its own."""
        asked = request.model_dump_json(), id(catalogue), repr(shop)
        if asked not in self._kept:
            self._kept[asked] = compare(request, catalogue, shop), catalogue
        return self._kept[asked][0]


@pytest.fixture(scope="session", autouse=True)
def kept_comparisons() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(comparison, "compare", KeptComparisons().compare)
        yield


@pytest.fixture(scope="session", autouse=True)
def flush_past_triggers() -> Iterator[None]:
    """SQLite empties tables by deleting rows: for that moment the triggers against it are taken off."""
    plain = DatabaseWrapper.ops_class.sql_flush

    def sql_flush(self: Any, *args: Any, **options: Any) -> list[str]:
        off, on = frozen_triggers.let_go("sqlite"), frozen_triggers.keep("sqlite")
        return [*off, *plain(self, *args, **options), *on]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(DatabaseWrapper.ops_class, "sql_flush", sql_flush)
        yield


def pytest_collection_finish() -> None:
    """What was collected stays to the end: the collector need not look through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(200_000, 20, 20)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--only-database", action="store_true", help="leave out what needs no database: another run has it"
    )


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("only_database"):
        kept = [item for item in items if _needs_database(item)]
        config.hook.pytest_deselected(items=[item for item in items if item not in set(kept)])
        items[:] = kept


def _needs_database(item: pytest.Item) -> bool:
    wanted = {"db", "transactional_db", "live_server"}
    return bool(
        item.get_closest_marker("django_db") or wanted.intersection(getattr(item, "fixturenames", ()))
    )
