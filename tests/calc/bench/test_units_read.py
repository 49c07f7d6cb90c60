"""What stands on an instrument, against exact factors worked out apart from the code."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.bench.teardown.units_read import KINDS, Fault, units_for, value_of


@pytest.mark.parametrize(
    ("entered", "read_in", "kept_in", "value"),
    [
        # 1 in = 25.4 mm exactly (international yard and pound agreement, 1959; NIST SP 811, B.8).
        ("1", "in", "mm", "25.4"),
        ("1", "thou", "mm", "0.0254"),
        ("3,5", "thou", "mm", "0.0889"),
        (".0035", "in", "mm", "0.0889"),
        ("12", "µm", "mm", "0.012"),
        # 1 psi = 6.894 757 kPa, 1 lbf = 4.448 222 N, 1 kgf = 9.806 65 N (NIST SP 811, B.8).
        ("1000", "psi", "bar", "68.947573"),
        ("150", "psi", "bar", "10.342136"),
        ("1000", "kPa", "bar", "10"),
        ("1000", "lbf", "N", "4448.221615"),
        ("40", "lbf", "N", "177.928865"),
        ("18", "kgf", "N", "176.5197"),
        ("97", "%", "ratio", "0.97"),
        ("36.26/38.26", "ratio", "ratio", "0.947726"),
        ("12", "%", "percent", "12"),
        ("105.5", "degrees", "degrees", "105.5"),
        ("-0.002", "mm", "mm", "-0.002"),
    ],
)
def test_a_reading_is_kept_once_in_the_unit_of_its_limit(
    entered: str, read_in: str, kept_in: str, value: str
) -> None:
    assert value_of(entered, read_in, kept_in) == Decimal(value)


@pytest.mark.parametrize(
    "entered", ["", " ", "x", "1.2.3", "1,2.3", "1e3", "nan", "inf", "٣", "1 2", "--1", "1/2"]
)
def test_what_is_no_figure_is_named_with_what_is_allowed(entered: str) -> None:
    with pytest.raises(Fault, match=r"a figure such as 0\.05 or 0,05") as wrong:
        value_of(entered, "mm", "mm")

    assert (wrong.value.field, wrong.value.given) == ("entered", entered.strip())


@pytest.mark.parametrize(("read_in", "kept_in"), [("psi", "mm"), ("mm", "bar"), ("", "mm"), ("N", "percent")])
def test_units_that_do_not_go_together_are_refused(read_in: str, kept_in: str) -> None:
    with pytest.raises(Fault, match="one of") as wrong:
        value_of("1", read_in, kept_in)

    assert wrong.value.field == "unit"


@pytest.mark.parametrize("entered", ["1/0", "0.9/-1"])
def test_new_is_above_nought(entered: str) -> None:
    with pytest.raises(Fault, match="new is above nought"):
        value_of(entered, "ratio", "ratio")


def test_too_many_characters_and_too_much_are_refused() -> None:
    with pytest.raises(Fault, match="24 characters or fewer"):
        value_of("1" * 25, "mm", "mm")
    with pytest.raises(Fault, match="between -1,000,000 and 1,000,000 mm"):
        value_of("99999", "in", "mm")


def test_a_unit_that_is_not_known_is_read_as_it_is() -> None:
    assert units_for("drops a minute") == ("drops a minute",)
    assert value_of("4", "drops a minute", "drops a minute") == 4


@given(
    figure=st.decimals(min_value=-1000, max_value=1000, places=3),
    pair=st.sampled_from([(read, kept) for kept, known in KINDS.items() for read in known]),
)
def test_comma_and_point_are_one_and_a_larger_figure_is_never_less(
    figure: Decimal, pair: tuple[str, str]
) -> None:
    read_in, kept_in = pair
    value = value_of(str(figure), read_in, kept_in)

    assert value == value_of(str(figure).replace(".", ","), read_in, kept_in)
    assert value <= value_of(str(figure + 1), read_in, kept_in)
