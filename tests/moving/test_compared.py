"""The checksum of a row: the same for what is the same on both databases, another for whatever differs."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal
from itertools import combinations
from typing import Any
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.management.moving.compared import digest, plain

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("on_sqlite", "on_postgresql"),
    [
        (Decimal("12.5"), Decimal("12.500")),
        (Decimal(0), Decimal("0.00")),
        (b"%PDF", memoryview(b"%PDF")),
        (NOON, NOON.astimezone(timezone(timedelta(hours=2)))),
        ({"b": 1, "a": [1000.0, 1e3]}, {"a": [1000, 1000], "b": 1.0}),
        ({"net": -0.0}, {"net": 0}),
    ],
)
def test_what_is_the_same_has_one_checksum(on_sqlite: Any, on_postgresql: Any) -> None:
    assert plain(on_sqlite) == plain(on_postgresql)


def test_what_differs_has_another() -> None:
    values: tuple[Any, ...] = (
        None, "", "0", 0, 1, False, True, Decimal("0.1"), 0.1, b"", b"0", {}, [], [0], {"0": 0}, {"0": None},
        date(2026, 3, 2), NOON, NOON + timedelta(microseconds=1), UUID(int=0), "2026-03-02", "é", "e\u0301",
    )  # fmt: skip
    for one, other in combinations(values, 2):
        assert plain(one) != plain(other), (one, other)


def test_values_do_not_run_into_each_other() -> None:
    assert digest(["ab", "c"]) != digest(["a", "bc"])
    assert digest(["1:s", ""]) != digest(["1:", "s"])


JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**9), 10**9) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
)


@given(st.dictionaries(st.text(), JSON, max_size=4))
def test_the_order_of_keys_says_nothing(value: dict[str, Any]) -> None:
    again = dict(reversed(json.loads(json.dumps(value)).items()))
    assert plain(value) == plain(again)
