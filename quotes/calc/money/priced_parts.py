"""The lines of full sets, worked out once for all tiers and openings of a request."""

from __future__ import annotations

from catalogue.calc.engine import Part
from quotes.calc.money.lines import part_line
from quotes.calc.money.priced import Priced
from quotes.calc.shop import Shop


class PricedParts:
    """Each article by component and grade; worked out anew where article or shop is another."""

    def __init__(self) -> None:
        self._lines: dict[tuple[str, str], tuple[Part, Shop, Priced]] = {}

    def line(self, part: Part, shop: Shop) -> Priced:
        """The line of a full set."""
        key = part.component, part.grade
        held = self._lines.get(key)
        if held is None or held[0] is not part or held[1] is not shop:
            held = self._lines[key] = (part, shop, part_line(part, None, shop))
        return held[2]
