"""Totals of a document and its tax groups, from the lines of a draft."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from babel.numbers import get_currency_precision

from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.sums import draft_sums, invoice_lines, line_net
from quotes.calc.invoice.tax_rules import tax_faults
from quotes.calc.invoice.values import Adjustment, Sums
from quotes.calc.money.tax import UnknownTaxCodeError
from quotes.calc.shop import TaxCode, TaxComponent
from tests.calc.invoice.plain import CODES, EXEMPT, SALES, draft_line, said, with_rate

ZERO_RATED = TaxCode("zero", "Z", (TaxComponent("VAT", Decimal(0)),))
REVERSE = TaxCode("reverse", "AE", (TaxComponent("VAT", Decimal(0)),), "Reverse charge.")
OUTSIDE = TaxCode("outside", "O", (), "Not a supply.")
ALL = {**CODES, **{code.code: code for code in (ZERO_RATED, REVERSE, OUTSIDE)}}


def sums_of(*lines: tuple[str, str, str], decimals: int = 2, **draft: object) -> Sums:
    drawn = tuple(draft_line(quantity, price, code) for quantity, price, code in lines)
    return draft_sums(Draft(lines=drawn, **draft), ALL, decimals)


def test_lines_are_numbered_and_taxed_by_their_code() -> None:
    first, second = invoice_lines(Draft(lines=(draft_line(), draft_line(tax_code="exempt"))), CODES, 2)

    assert (first.number, first.category, first.rate_pct, first.unit_code) == (1, "S", Decimal(20), "SET")
    assert (second.number, second.category, second.rate_pct) == (2, "E", Decimal(0))


def test_a_code_that_the_shop_has_not_is_refused() -> None:
    with pytest.raises(UnknownTaxCodeError, match="'luxury'"):
        invoice_lines(Draft(lines=(draft_line(tax_code="luxury"),)), CODES, 2)


def test_a_lines_allowances_and_charges_are_in_its_net() -> None:
    line = draft_line(
        "3",
        "10.00",
        adjustments=(
            Adjustment(kind="allowance", amount=Decimal("4.00")),
            Adjustment(kind="charge", amount=Decimal("1.50")),
        ),
    )

    assert line_net(line, 2) == Decimal("27.50")


def test_allowances_and_charges_of_the_document_are_taxed_by_their_code() -> None:
    adjustments = (
        Adjustment(kind="allowance", amount=Decimal(30), tax_code="standard"),
        Adjustment(kind="charge", amount=Decimal(10), tax_code="reduced"),
    )
    sums = sums_of(("1", "100", "standard"), adjustments=adjustments)

    assert said(sums.line_total, sums.allowance_total, sums.charge_total) == "100 30 10"
    assert [said(group.taxable, group.tax) for group in sums.tax_groups] == ["70 14", "10 0.7"]
    assert said(sums.net, sums.gross) == "80 94.7"


def test_lines_of_one_category_and_rate_are_taxed_together() -> None:
    sums = sums_of(("1", "0.02", "standard"), ("1", "0.02", "standard"), ("1", "0.02", "standard"))

    assert [said(group.taxable, group.tax) for group in sums.tax_groups] == ["0.06 0.01"]


def test_codes_of_one_category_and_rate_share_a_group_and_both_reasons() -> None:
    other = replace(EXEMPT, code="insurance", reason="Insurance is exempt.")
    lines = (draft_line(tax_code="exempt"), draft_line(tax_code="insurance"))

    (group,) = draft_sums(Draft(lines=lines), {**CODES, "insurance": other}, 2).tax_groups

    assert group.taxable == 200
    assert group.reason == f"{EXEMPT.reason} Insurance is exempt."


def test_categories_without_tax_keep_to_themselves() -> None:
    sums = sums_of(("1", "10", "exempt"), ("1", "20", "zero"), ("1", "30", "reverse"))

    assert [(group.category, said(group.taxable, group.tax)) for group in sums.tax_groups] == [
        ("E", "10 0"),
        ("Z", "20 0"),
        ("AE", "30 0"),
    ]
    assert tax_faults(sums) == ()


def test_outside_the_scope_has_a_group_and_no_component() -> None:
    (group,) = sums_of(("2", "10", "outside")).tax_groups

    assert (group.category, said(group.taxable, group.tax), group.components) == ("O", "20 0", ())


@pytest.mark.parametrize(
    ("code", "rule"),
    [
        (replace(EXEMPT, reason=" "), "BR-E-10"),
        (replace(REVERSE, reason=""), "BR-AE-10"),
        (replace(OUTSIDE, reason=""), "BR-O-10"),
        (TaxCode("union", "K", ()), "BR-IC-10"),
        (TaxCode("export", "G", ()), "BR-G-10"),
        (TaxCode("nothing", "S", ()), "BR-S-05"),
        (TaxCode("odd", "E", (TaxComponent("VAT", Decimal(5)),), "Odd."), "BR-E-05"),
        (TaxCode("strange", "Q", ()), "BR-CO-18"),
    ],
)
def test_a_group_without_its_reason_or_with_a_rate_it_cannot_have_is_named(code: TaxCode, rule: str) -> None:
    sums = draft_sums(Draft(lines=(draft_line(tax_code=code.code),)), {code.code: code}, 2)

    assert [fault.rule for fault in tax_faults(sums)] == [rule]


def test_outside_the_scope_stands_alone() -> None:
    sums = sums_of(("1", "10", "outside"), ("1", "10", "standard"))

    assert [fault.rule for fault in tax_faults(sums)] == ["BR-O-11"]


def test_state_and_local_tax_add_up_to_the_tax() -> None:
    (group,) = sums_of(("1", "33.33", "sales")).tax_groups

    assert group.tax == Decimal("2.42")
    assert [name for name, _, _ in group.components] == [part.name for part in SALES.components]
    assert sum(tax for _, _, tax in group.components) == group.tax


@pytest.mark.parametrize(("currency", "decimals"), [("JPY", 0), ("EUR", 2), ("KWD", 3)])
def test_sums_have_as_many_decimals_as_the_currency(currency: str, decimals: int) -> None:
    sums = sums_of(("1.5", "3.3333", "standard"), decimals=decimals)

    assert get_currency_precision(currency) == decimals
    assert all(
        -figure.as_tuple().exponent == decimals  # type: ignore[operator]
        for figure in (sums.line_total, sums.net, sums.tax, sums.gross, sums.prepaid, sums.due)
    )
    assert sums.line_total == {0: Decimal(5), 2: Decimal("5.00"), 3: Decimal("5.000")}[decimals]
    assert sums.tax == Decimal(1)


def test_a_currency_of_three_decimals_rounds_the_third() -> None:
    assert sums_of(("1", "0.0125", "standard"), decimals=3).line_total == Decimal("0.013")


def test_nothing_at_all_adds_up_to_nothing() -> None:
    sums = sums_of()

    assert (said(sums.line_total, sums.tax, sums.due), sums.tax_groups) == ("0 0 0", ())


def test_a_free_job_has_a_group_of_nothing() -> None:
    sums = sums_of(("1", "0", "standard"))

    assert [said(group.taxable, group.tax) for group in sums.tax_groups] == ["0 0"]
    assert sums.due == 0


def test_what_was_paid_may_be_more_than_the_sum() -> None:
    sums = sums_of(("1", "100", "standard"), prepayments={"R-2026-0007": Decimal(150)})

    assert said(sums.gross, sums.prepaid, sums.due) == "120 150 -30"


def test_a_line_keeps_the_tax_of_its_day() -> None:
    (before,) = invoice_lines(Draft(lines=(draft_line(),)), CODES, 2)
    kept = draft_line("-1", taxed=before.taxed)
    draft = Draft(lines=(draft_line(), kept))

    sums = draft_sums(draft, with_rate(CODES["standard"], "21"), 2)

    assert [said(group.rate_pct, group.taxable, group.tax) for group in sums.tax_groups] == [
        "21 100 21",
        "20 -100 -20",
    ]


def test_a_part_that_the_customer_brought_is_not_charged() -> None:
    allowance = Adjustment(kind="allowance", amount=Decimal(5))
    draft = Draft(lines=(draft_line(own_part=True, adjustments=(allowance,)),))

    (line,) = invoice_lines(draft, CODES, 2)

    assert (said(line.unit_price, line.net), line.adjustments) == ("0 0", ())
    assert "Brought by the customer" in line.note
