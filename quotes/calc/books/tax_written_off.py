"""The tax contained in what was written off of a document, by rate.

A figure for the bookkeeper: whether and when it may be claimed back is for local law, so nothing nets it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.request import Value
from quotes.calc.invoice.values import InvoiceSheet


class TaxContained(Value):
    """Of one tax code and rate: what was written off is taxable and tax together."""

    code: str
    category: str
    rate_pct: Decimal
    taxable: Decimal
    tax: Decimal

    @property
    def gross(self) -> Decimal:
        return self.taxable + self.tax


def left_of(sheet: InvoiceSheet, credits: Iterable[InvoiceSheet]) -> tuple[TaxContained, ...]:
    """The tax groups of a document less what credit notes have taken back of them."""
    sums: dict[tuple[str, str, Decimal], tuple[Decimal, Decimal]] = {}
    for each in (sheet, *credits):
        sign = 1 if each is sheet else -1
        for group in each.sums.tax_groups:
            key = group.code, group.category, group.rate_pct
            taxable, tax = sums.get(key, (ZERO, ZERO))
            sums[key] = taxable + sign * group.taxable, tax + sign * group.tax
    return tuple(
        TaxContained(code=code, category=category, rate_pct=rate, taxable=taxable, tax=tax)
        for (code, category, rate), (taxable, tax) in sums.items()
        if taxable or tax
    )


def tax_written_off(
    groups: Sequence[TaxContained], *, before: Decimal, amount: Decimal, decimals: int
) -> tuple[TaxContained, ...]:
    """What of each group is in an amount, where `before` was written off of the same document already.

    All that was ever written off is shared out anew and what stood before is taken off, so that parts come to
    the whole.
    """
    first, both = _shared(groups, before, decimals), _shared(groups, before + amount, decimals)
    return tuple(
        now.model_copy(update={"taxable": now.taxable - then.taxable, "tax": now.tax - then.tax})
        for then, now in zip(first, both, strict=True)
    )


def _shared(groups: Sequence[TaxContained], amount: Decimal, decimals: int) -> list[TaxContained]:
    """An amount shared out in proportion; what rounding leaves over is taxable in the largest group."""
    gross = sum((group.gross for group in groups), ZERO)
    if gross <= ZERO:
        return []
    # A document rounded up (BT-114) is owed a little more than its groups: no tax is in that.
    amount = min(amount, gross)
    shares = [
        group.model_copy(
            update={
                "taxable": round_half_up(amount * group.taxable / gross, decimals),
                "tax": round_half_up(amount * group.tax / gross, decimals),
            }
        )
        for group in groups
    ]
    largest = max(range(len(groups)), key=lambda place: abs(groups[place].taxable))
    over = amount - sum((share.gross for share in shares), ZERO)
    whole = shares[largest].taxable + over
    shares[largest] = shares[largest].model_copy(update={"taxable": whole})
    return shares
