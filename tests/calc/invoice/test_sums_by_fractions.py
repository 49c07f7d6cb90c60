"""The sums of any document are those that exact fractions give, worked out without our code."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal
from fractions import Fraction
from math import floor
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.invoice.draft import Draft
from quotes.calc.invoice.sums import draft_sums, invoice_lines
from tests.calc.invoice.made_up import ANY, DECIMALS, drafts
from tests.calc.invoice.plain import CODES

CATEGORY_AND_RATE = {
    "standard": ("S", Fraction(20)),
    "reduced": ("S", Fraction(7)),
    "exempt": ("E", Fraction(0)),
    "sales": ("S", Fraction(29, 4)),
}


def rounded(exact: Fraction, decimals: int) -> Fraction:
    """To so many places, halves away from nought."""
    scaled = abs(exact) * 10**decimals
    units = floor(scaled + Fraction(1, 2))
    return Fraction(units if exact >= 0 else -units, 10**decimals)


def signed(adjustment: Any) -> Fraction:
    return Fraction(adjustment.amount) * (-1 if adjustment.kind == "allowance" else 1)


def oracle(draft: Draft, decimals: int) -> dict[str, Any]:
    nets = [
        rounded(Fraction(line.quantity) * Fraction(line.unit_price) / Fraction(line.price_base), decimals)
        + sum((signed(one) for one in line.adjustments), Fraction(0))
        for line in draft.lines
    ]
    taxable: dict[tuple[str, Fraction], Fraction] = defaultdict(Fraction)
    for line, net in zip(draft.lines, nets, strict=True):
        taxable[CATEGORY_AND_RATE[line.tax_code]] += net
    for one in draft.adjustments:
        taxable[CATEGORY_AND_RATE[one.tax_code]] += signed(one)
    groups = {key: (sum_, rounded(sum_ * key[1] / 100, decimals)) for key, sum_ in taxable.items()}
    net = sum(nets, Fraction(0)) + sum((signed(one) for one in draft.adjustments), Fraction(0))
    gross = net + sum((tax for _, tax in groups.values()), Fraction(0))
    paid = sum((Fraction(paid) for paid in draft.prepayments.values()), Fraction(0))
    due = gross - paid + Fraction(draft.rounding)
    return {"nets": nets, "groups": groups, "net": net, "gross": gross, "due": due}


@ANY
@given(st.data())
def test_any_document_adds_up_as_fractions_do(data: st.DataObject) -> None:
    decimals = data.draw(DECIMALS)
    draft = data.draw(drafts(decimals))
    wanted = oracle(draft, decimals)

    sums = draft_sums(draft, CODES, decimals)

    assert [Fraction(line.net) for line in invoice_lines(draft, CODES, decimals)] == wanted["nets"]
    assert {
        (group.category, Fraction(group.rate_pct)): (Fraction(group.taxable), Fraction(group.tax))
        for group in sums.tax_groups
    } == wanted["groups"]
    assert [Fraction(figure) for figure in (sums.net, sums.gross, sums.due)] == [
        wanted["net"],
        wanted["gross"],
        wanted["due"],
    ]


@ANY
@given(st.data())
def test_components_of_a_tax_add_up_to_it(data: st.DataObject) -> None:
    decimals = data.draw(DECIMALS)
    sums = draft_sums(data.draw(drafts(decimals)), CODES, decimals)

    for group in sums.tax_groups:
        assert sum((tax for _, _, tax in group.components), Decimal(0)) == group.tax
