"""An issued document is added up again from its lines, by nothing but what it says itself."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given

from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.values import InvoiceSheet
from quotes.calc.record.invoice_sums import invoice_sum_faults
from quotes.calc.record.kept_json import kept_fingerprint
from quotes.calc.record.quote_sums import quote_sum_faults
from quotes.calc.sheet.values import Comparison
from tests.calc.invoice.made_up import ANY, drafts
from tests.calc.invoice.plain import draft_line, sheet
from tests.sample_sheet import sample_comparison, sample_sheet

ISSUED = sheet(Draft(lines=(draft_line("3", "19.99"), draft_line("2", "50", "reduced"))))
QUOTED = sample_comparison()


def invoice_lines_said(of: InvoiceSheet) -> list[str]:
    return [str(fault) for fault in invoice_sum_faults("I-2026-0001", of)]


def quote_lines_said(of: Comparison) -> list[str]:
    return [str(fault) for fault in quote_sum_faults("Q-2026-0001/1", of)]


@ANY
@given(drafts(2))
def test_whatever_was_issued_adds_up(draft: Draft) -> None:
    assert invoice_lines_said(sheet(draft)) == []


@pytest.mark.parametrize(
    ("change", "lines"),
    [
        (
            {"quantity": Decimal(4)},
            ["I-2026-0001: net of line 1: expected 79.96, found 59.97"],
        ),
        (
            {"quantity": Decimal(4), "net": Decimal("79.96")},
            [
                "I-2026-0001: line total: expected 179.96, found 159.97",
                "I-2026-0001: net: expected 179.96, found 159.97",
                "I-2026-0001: tax: expected 22.99, found 18.99",
                "I-2026-0001: gross: expected 202.95, found 178.96",
                "I-2026-0001: due: expected 202.95, found 178.96",
                "I-2026-0001: tax groups: expected S 20 % of 79.96: 15.99, S 7 % of 100.00: 7.00, "
                "found S 20 % of 59.97: 11.99, S 7 % of 100.00: 7.00",
            ],
        ),
        (
            {"rate_pct": Decimal(7)},
            [
                "I-2026-0001: tax of its lines: expected that of their codes, "
                "found ('S', Decimal('7')) is stated where 'standard' is S 20"
            ],
        ),
    ],
    ids=["quantity", "quantity and net", "rate"],
)
def test_a_line_that_was_changed_is_found(change: dict[str, Any], lines: list[str]) -> None:
    first, second = ISSUED.lines
    changed = ISSUED.model_copy(update={"lines": (first.model_copy(update=change), second)})

    assert invoice_lines_said(changed) == lines


def test_a_quote_adds_up() -> None:
    assert quote_lines_said(QUOTED) == []


def test_a_tax_group_that_was_changed_is_found() -> None:
    option = QUOTED.options[0]
    group = max(option.tax_groups, key=lambda one: one.tax)
    more = group.model_copy(update={"tax": group.tax + 1})
    groups = tuple(more if one is group else one for one in option.tax_groups)
    changed = QUOTED.model_copy(update={"options": (option.model_copy(update={"tax_groups": groups}),)})
    of = f"Q-2026-0001/1, {option.name}"

    assert quote_lines_said(changed) == [
        f"{of}: tax in its tax groups: expected {option.tax.typical}, found {option.tax.typical + 1}",
        f"{of}: tax {group.code} {group.rate_pct:f} %: expected {group.tax}, found {more.tax}",
        f"{of}: layers of tax {group.code} {group.rate_pct:f} %: expected {more.tax}, found {group.tax}",
    ]


def test_a_line_that_bears_another_tax_is_found() -> None:
    option = QUOTED.options[0]
    codes = {group.code: group for group in option.tax_groups}
    assert {line.tax_code for line in option.lines} == codes.keys()
    line = next(one for one in option.lines if one.net)
    other = next(code for code in codes if code != line.tax_code)
    moved = tuple(one.model_copy(update={"tax_code": other}) if one is line else one for one in option.lines)
    changed = QUOTED.model_copy(update={"options": (option.model_copy(update={"lines": moved}),)})

    [first, second] = quote_lines_said(changed)
    assert f"found {codes[line.tax_code].taxable}" in first + second
    assert f"expected {codes[other].taxable + line.net}" in first + second


def test_the_fingerprint_of_what_is_kept_is_that_of_the_value() -> None:
    quoted = sample_sheet()

    assert kept_fingerprint(quoted.model_dump(mode="json", by_alias=True)) == fingerprint(quoted)
    assert kept_fingerprint(ISSUED.model_dump(mode="json")) == fingerprint(ISSUED)
