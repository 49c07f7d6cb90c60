"""What a strip-down costs, and putting the engine back together, from the catalogue's hours.

The workshop's owner may set the prices of an engine type; these stand where nobody has.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.request import Delivered

DEPOSIT_SHARE = Decimal("0.5")
"""Half of the price before anything is undone; common practice, no source."""


@dataclass(frozen=True, slots=True)
class TeardownSums:
    """Sums with tax, in the workshop's currency."""

    price: Decimal
    put_back: Decimal
    deposit: Decimal


def strip_operations(catalogue: EngineCatalogue, delivered: Delivered) -> frozenset[str]:
    """All that takes this engine apart; getting it out of the chassis only where it came in one."""
    strips = {code for code, each in catalogue.operations.items() if each.kind == "strip"}
    from_chassis = {code for each in catalogue.operations.values() for code in each.requires_in_chassis}
    return frozenset(strips if delivered == "in_chassis" else strips - from_chassis)


def put_back_operations(catalogue: EngineCatalogue, delivered: Delivered) -> frozenset[str]:
    """All that puts back what was taken apart, with nothing renewed."""
    strips = strip_operations(catalogue, delivered)
    return frozenset(code for strip in strips for code in catalogue.operations[strip].undo)


def worked_out(
    catalogue: EngineCatalogue, rates: Mapping[str, Decimal], tax_pct: Decimal, delivered: Delivered
) -> TeardownSums:
    """Hours at their rates with tax, rounded to whole units of the currency."""

    def asked(codes: frozenset[str]) -> Decimal:
        work = [catalogue.operations[code] for code in codes]
        net = sum((each.hours * rates[each.kind] for each in work), ZERO)
        return round_half_up(net * (1 + tax_pct / 100), 0)

    price = asked(strip_operations(catalogue, delivered))
    return TeardownSums(
        price=price,
        put_back=asked(put_back_operations(catalogue, delivered)),
        deposit=round_half_up(price * DEPOSIT_SHARE, 0),
    )


def net_of(gross: Decimal, tax_pct: Decimal, decimals: int) -> Decimal:
    """What of a sum with tax is before tax.

    >>> net_of(Decimal(120), Decimal(20), 2)
    Decimal('100.00')
    """
    return round_half_up(gross / (1 + tax_pct / 100), decimals)
