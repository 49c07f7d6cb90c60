"""Our sums come to the numbers that others have."""

from __future__ import annotations

import pytest

from tests.outside.check import OutsideCheck
from tests.outside.registry import CHECKS


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_our_sums_come_to_what_others_have(check: OutsideCheck) -> None:
    for got, expected, within in zip(check.got(), check.expected, check.tolerance, strict=True):
        assert got == pytest.approx(expected, abs=within)
