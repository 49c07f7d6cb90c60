"""Powers compare on one dyno and by one correction, and not otherwise."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.bench.leaving.powers import Pull, compare_powers, peak_of


def pull(figure: str, unit: str = "kW", dyno: str = "Roller 2", correction: str = "ISO 1585") -> Pull:
    return Pull(Decimal(figure), unit, dyno, correction)


def test_the_gain_on_one_dyno() -> None:
    found = compare_powers(pull("80"), pull("86", dyno=" roller  2"))

    assert [found.gain, found.pct, found.unit] == [6, Decimal("7.5"), "kW"]


def test_horsepower_before_and_kilowatts_after_are_one_power() -> None:
    """100 hp of 550 ft lbf/s are 74.57 kW."""
    found = compare_powers(pull("100", "hp"), pull("74.57"))

    assert found.gain == 0


@pytest.mark.parametrize(
    ("after", "why"),
    [
        (pull("86", dyno="Another"), "the dyno is not the same: Roller 2 before, Another after"),
        (pull("86", correction="SAE J1349"), "the correction is not the same"),
        (pull("86", correction=""), "the correction is not written down for both"),
    ],
)
def test_powers_of_two_dynos_or_corrections_do_not_compare(after: Pull, why: str) -> None:
    found = compare_powers(pull("80"), after)

    assert not found.compares
    assert why in found.why[0]
    assert found.gain == 0


def test_a_run_without_a_peak_power_is_no_pull() -> None:
    assert peak_of([("Peak torque", "65", "Nm")], "Roller 2", "ISO 1585") is None
    assert peak_of([("Peak power", "80.5", "kW")], "Roller 2", "ISO 1585") == pull("80.5")
