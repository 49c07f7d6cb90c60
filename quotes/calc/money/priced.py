"""A line with its price, low and high beside typical, before anyone has said why it is on the quote."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.money.price import MissingPriceError
from quotes.calc.sheet.line_values import Kind, Line, State
from quotes.calc.shop import LineKind, Shop


@dataclass(frozen=True, slots=True)
class Priced:
    """A line's figures, before tax: `net` typical, `low` and `high` the band before the strip-down."""

    kind: Kind
    code: str
    description: str
    quantity: Decimal
    unit: str
    unit_price: Decimal
    net: Decimal
    low: Decimal
    high: Decimal
    tax_code: str
    component: str | None = None
    cost: Decimal | None = None
    """What the whole line costs the shop, where it buys it."""
    list_price: Decimal | None = None
    """Per unit."""
    edited: str = ""

    @property
    def key(self) -> str:
        return f"{self.kind}:{self.code}"

    def line(self, state: State, reason_code: str, reason: str) -> Line:
        """The line of a sheet, with why it is there."""
        return Line(
            key=self.key,
            kind=self.kind,
            code=self.code,
            description=self.description,
            quantity=self.quantity,
            unit=self.unit,
            unit_price=self.unit_price,
            net=self.net,
            tax_code=self.tax_code,
            state=state,
            reason_code=reason_code,
            reason=reason,
            component=self.component,
            cost=self.cost,
            list_price=self.list_price,
            edited=self.edited,
        )


def tax_code_for(kind: LineKind, shop: Shop) -> str:
    """The shop's tax code for a kind of line. Raises MissingPriceError where it has set none."""
    try:
        return shop.taxability[kind]
    except KeyError:
        raise MissingPriceError(f"the workshop has no tax code for {kind!r} lines") from None
