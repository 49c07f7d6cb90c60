"""The tax contained in what was written off: by rate, and parts come to the whole."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.money import ZERO
from quotes.calc.books.tax_written_off import TaxContained, tax_written_off


def group(taxable: str, tax: str, rate: str = "20") -> TaxContained:
    return TaxContained(
        code=f"at {rate}", category="S", rate_pct=Decimal(rate), taxable=Decimal(taxable), tax=Decimal(tax)
    )


TWO = (group("100.00", "20.00"), group("200.00", "14.00", "7"))
"""334.00 with tax."""


def off(groups: tuple[TaxContained, ...], amount: str, before: str = "0") -> list[str]:
    found = tax_written_off(groups, before=Decimal(before), amount=Decimal(amount), decimals=2)
    return [f"{one.rate_pct}: {one.taxable} + {one.tax}" for one in found]


def test_a_document_written_off_whole_contains_its_own_tax() -> None:
    assert off(TWO, "334.00") == ["20: 100.00 + 20.00", "7: 200.00 + 14.00"]


def test_a_part_contains_its_share_of_each_rate() -> None:
    assert off(TWO, "33.40") == ["20: 10.00 + 2.00", "7: 20.00 + 1.40"]


def test_what_a_document_was_rounded_up_by_contains_no_tax() -> None:
    assert off((group("0.02", "0.00"),), "0.03") == ["20: 0.02 + 0.00"]


def test_a_document_of_nothing_contains_none() -> None:
    assert off((group("-100.00", "-20.00"), group("100.00", "7.00", "7")), "5") == []


sums = st.integers(1, 10**7).map(lambda cents: Decimal(cents) / 100)


@given(taxable=st.lists(sums, min_size=1, max_size=4), parts=st.lists(sums, min_size=1, max_size=4))
def test_parts_come_to_the_whole_and_every_part_to_its_amount(
    taxable: list[Decimal], parts: list[Decimal]
) -> None:
    groups = tuple(
        group(str(net), str((net * rate / 100).quantize(Decimal("0.01"))), str(rate))
        for net, rate in zip(taxable, (20, 7, 0, 13), strict=False)
    )
    gross = sum((one.gross for one in groups), ZERO)
    before, tax = ZERO, ZERO
    for part in (*parts, gross):
        amount = min(part, gross - before)
        found = tax_written_off(groups, before=before, amount=amount, decimals=2)
        assert sum((one.gross for one in found), ZERO) == amount
        before += amount
        tax += sum((one.tax for one in found), ZERO)

    assert tax == sum((one.tax for one in groups), ZERO)
