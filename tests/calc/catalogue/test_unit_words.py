"""A part's unit is the one of its engine type, not the price list's line for all of them."""

from __future__ import annotations

import pytest

from catalogue.calc.unit_words import for_cylinders
from tests.cast import shipped

MAINS = "single: each bearing; others: shell pair"
CRANK = "each (single: complete with rod)"


@pytest.mark.parametrize(
    ("unit", "single", "others"),
    [
        (MAINS, "each bearing", "shell pair"),
        (CRANK, "each, complete with rod", "each"),
        ("set per cylinder", "set per cylinder", "set per cylinder"),
        ("single: each bearing", "single: each bearing", "single: each bearing"),
    ],
)
def test_a_line_for_several_types_is_read_for_one(unit: str, single: str, others: str) -> None:
    assert [for_cylinders(unit, many) for many in (1, 2, 4)] == [single, others, others]


@pytest.mark.parametrize("code", ["single450", "twin650", "four600", "four1000"])
def test_no_shipped_part_names_the_unit_of_another_engine_type(code: str) -> None:
    assert not [part.unit for part in shipped(code).parts.values() if "single" in part.unit]
