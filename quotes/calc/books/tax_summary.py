"""Tax by code, rate and component over all documents of a batch: on sales, on what was bought, and contained
in what was written off.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.books.export import Cells, ExportEntry
from quotes.calc.invoice.values import InvoiceSheet

SALES, PURCHASES, WRITTEN_OFF = "sales", "purchases", "written off"
SIDES = SALES, PURCHASES, WRITTEN_OFF
NOT_NETTED = "contained, not taken off"
"""Beside what was written off: sales stand above as they were, for the bookkeeper decides about relief."""
Key = tuple[str, str, str, Decimal | None, str, Decimal | None]


class TaxSummary:
    """Takes documents one by one and holds a sum for each component of each rate."""

    def __init__(self) -> None:
        self._sums: dict[Key, list[Decimal]] = {}
        self.sales_tax = ZERO

    def add(self, entry: ExportEntry) -> None:
        if entry.invoice is not None and entry.invoice.sheet is not None:
            self._add_sheet(entry.invoice.sheet)
        if entry.bill is not None:
            self._put((PURCHASES, "", "", None, "", None), entry.bill.net, entry.bill.tax)
        for each in entry.written_off:
            head = (WRITTEN_OFF, each.code, each.category, each.rate_pct)
            self._put((*head, NOT_NETTED, each.rate_pct), each.taxable, each.tax)

    def rows(self) -> Iterator[Cells]:
        """Taxable, tax and number of documents for each; sales first, what was written off last."""
        for key in sorted(self._sums, key=_order):
            taxable, tax, documents = self._sums[key]
            yield (*key, taxable, tax, int(documents))

    def _add_sheet(self, sheet: InvoiceSheet) -> None:
        for group in sheet.sums.tax_groups:
            head = (SALES, group.code, group.category, group.rate_pct)
            parts = group.components or (("", group.rate_pct, group.tax),)
            for name, rate, tax in parts:
                self._put((*head, name, rate), sheet.sign * group.taxable, sheet.sign * tax)
                self.sales_tax += sheet.sign * tax

    def _put(self, key: Key, taxable: Decimal, tax: Decimal) -> None:
        held = self._sums.setdefault(key, [ZERO, ZERO, ZERO])
        for place, amount in enumerate((taxable, tax, Decimal(1))):
            held[place] += amount


def _order(key: Key) -> tuple[object, ...]:
    side, code, category, rate, component, part = key
    return SIDES.index(side), code, category, rate or ZERO, component, part or ZERO
