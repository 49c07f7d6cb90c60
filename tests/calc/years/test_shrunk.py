"""A comparison cut down to a few lines still adds up."""

from __future__ import annotations

from quotes.calc.record.quote_sums import quote_sum_faults
from quotes.calc.sheet.values import Comparison
from quotes.calc.years.shrunk import shrunk
from tests.calc.small import SHOP
from tests.sample_sheet import sample_comparison


def test_it_has_so_many_lines_and_its_sums_agree() -> None:
    cut = shrunk(sample_comparison(), (3, 2), SHOP.tax_codes)
    assert [len(option.lines) for option in cut.options] == [3, 2]
    again = Comparison.model_validate(cut.model_dump())
    assert [*quote_sum_faults("the quote", again)] == []
