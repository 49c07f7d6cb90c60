"""What a customer may add to an option at the yes: the parts it offers and does not include."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.sheet.line_values import Risk
from quotes.calc.sheet.values import Option


@dataclass(frozen=True, slots=True)
class Extra:
    """One part that may be ticked. `gross` is the most that it adds, with tax."""

    component: str
    name: str
    sentence: str
    gross: Decimal


def extras_of(option: Option, decimals: int = 2) -> tuple[Extra, ...]:
    """The parts offered with an option, each with the most it adds to the sum with tax.

    Each is priced alone with the work it brings, so that several together cost that or less.
    """
    return tuple(
        Extra(component, risk.name, risk.sentence, _gross(option, risk, decimals))
        for component, risk in option.offered.items()
    )


def accepted_gross(option: Option, ticked: Collection[str], decimals: int = 2) -> Decimal:
    """The sum with tax that a yes to the option and the ticked extras stands for. Unknown ones: KeyError."""
    prices = {extra.component: extra.gross for extra in extras_of(option, decimals)}
    return option.gross.typical + sum((prices[component] for component in set(ticked)), ZERO)


def _gross(option: Option, risk: Risk, decimals: int) -> Decimal:
    """With the highest rate of the option's taxes: what is shown is the most it can be."""
    rate = max((group.rate_pct for group in option.tax_groups), default=ZERO)
    return risk.cost_to_renew + round_half_up(risk.cost_to_renew * rate / 100, decimals)
