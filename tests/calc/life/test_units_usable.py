"""Which units a duty can carry, and what is said about the others."""

import pytest

from quotes.calc.life.units import CannotConvert, per_basis, usable
from tests.cast import shipped


def test_motocross_is_counted_in_hours_alone() -> None:
    assert usable(shipped("single450").duties["motocross"]) == ("h",)


def test_a_unit_that_can_not_be_carried_is_refused_with_those_that_can() -> None:
    with pytest.raises(CannotConvert, match=r"miles can't be converted .* use h"):
        per_basis("mi", shipped("single450").duties["motocross"])
