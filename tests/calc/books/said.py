"""Entries as lines of text, to be compared with what was worked out by hand."""

from __future__ import annotations

from quotes.calc.books.values import Entry


def said(entry: Entry) -> list[str]:
    """Lines as `role debit/credit sum [tax code rate] [build]`."""
    found = []
    for line in entry.lines:
        side = f"Dr {line.debit:f}" if line.debit else f"Cr {line.credit:f}"
        tax = f" {line.tax_code} {line.rate_pct:f}" if line.rate_pct is not None else ""
        found.append(f"{line.account.role} {side}{tax}" + (f" {line.build}" if line.build else ""))
    return found
