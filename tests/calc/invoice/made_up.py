"""Random documents for properties: lines of every sign, allowances, charges, taxes, currencies."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import settings
from hypothesis import strategies as st

from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.values import Adjustment
from tests.calc.invoice.plain import CODES

ANY = settings(max_examples=60, deadline=None)
"""A busy machine is no fault of a document."""
DECIMALS = st.sampled_from([0, 2, 3])
TAX_CODES = st.sampled_from(sorted(CODES))
QUANTITIES = st.integers(-50_000, 500_000).filter(bool).map(lambda number: Decimal(number).scaleb(-3))
PRICES = st.integers(0, 50_000_000).map(lambda number: Decimal(number).scaleb(-4))
BASES = st.sampled_from([Decimal(1), Decimal(2), Decimal(7), Decimal(100)])


@st.composite
def adjustments(draw: st.DrawFn, decimals: int, tax_code: str = "") -> Adjustment:
    return Adjustment(
        kind=draw(st.sampled_from(["allowance", "charge"])),
        amount=Decimal(draw(st.integers(0, 5000))).scaleb(-decimals),
        reason=draw(st.sampled_from(["Campaign", "Packing"])),
        tax_code=tax_code,
    )


@st.composite
def lines(draw: st.DrawFn, decimals: int, key: str = "") -> DraftLine:
    return DraftLine(
        key=key,
        kind="part",
        description="Part",
        quantity=draw(QUANTITIES),
        unit_price=draw(PRICES),
        price_base=draw(BASES),
        adjustments=tuple(draw(st.lists(adjustments(decimals), max_size=2))),
        tax_code=draw(TAX_CODES),
    )


@st.composite
def accepted(draw: st.DrawFn, decimals: int) -> tuple[DraftLine, ...]:
    """Lines with keys, as a yes covers them."""
    count = draw(st.integers(1, 5))
    return tuple(draw(lines(decimals, f"option:part:{number}")) for number in range(count))


@st.composite
def drafts(draw: st.DrawFn, decimals: int) -> Draft:
    on_all = st.lists(TAX_CODES.flatmap(lambda code: adjustments(decimals, code)), max_size=3)
    unit = Decimal(1).scaleb(-decimals)
    return Draft(
        lines=tuple(draw(st.lists(lines(decimals), min_size=1, max_size=6))),
        adjustments=tuple(draw(on_all)),
        prepayments={"R-1": draw(st.integers(0, 100_000)) * unit},
        rounding=draw(st.integers(-50, 50)) * unit,
    )
