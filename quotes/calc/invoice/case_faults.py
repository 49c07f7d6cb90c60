"""What is wrong with a case that no single field shows."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.fault import Fault
from quotes.calc.invoice.case_values import InvoiceCase, net_price


def case_faults(case: InvoiceCase) -> Iterator[Fault]:
    """Prices, taxes that can't be, amounts finer than the currency."""
    if not case.lines:
        yield Fault("lines", "none", "at least one line (BR-16)")
    for place, line in enumerate(case.lines):
        field = f"lines.{place}"
        if line.price is None and line.gross_price is None:
            yield Fault(f"{field}.price", "missing", "must be given, or gross_price")
        elif net_price(line) < ZERO:
            yield Fault(
                f"{field}.price_discount", f"{line.price_discount:f}", f"at most {line.gross_price:f}"
            )
        yield from _tax_faults(field, line.vat_category, line.vat_rate)
        for number, one in enumerate(line.allowances_charges):
            yield from _too_fine(f"{field}.allowances_charges.{number}.amount", one.amount, case)
    for place, both in enumerate(case.doc_allowances_charges):
        field = f"doc_allowances_charges.{place}"
        yield from _tax_faults(field, both.vat_category, both.vat_rate)
        yield from _too_fine(f"{field}.amount", both.amount, case)
    for field, amount in (("paid", case.paid), ("rounding", case.rounding)):
        yield from _too_fine(field, amount or ZERO, case)
    yield from _too_fine("expected.BT113_paid", case.expected.BT113_paid, case)
    yield from _too_fine("expected.BT114_rounding", case.expected.BT114_rounding, case)
    yield from _outside_with_others(case)


def _tax_faults(field: str, category: str, rate: Decimal) -> Iterator[Fault]:
    if category != "S" and rate:
        yield Fault(f"{field}.vat_rate", f"{rate:f}", f"0, for category {category} bears no tax")
    if category == "S" and not rate:
        yield Fault(f"{field}.vat_rate", f"{rate:f}", "above 0 for category S (BR-S-05); Z is zero rated")


def _too_fine(field: str, amount: Decimal, case: InvoiceCase) -> Iterator[Fault]:
    if amount != round_half_up(amount, case.money_decimals):
        yield Fault(field, f"{amount:f}", f"at most {case.money_decimals} decimals")


def _outside_with_others(case: InvoiceCase) -> Iterator[Fault]:
    found = [(f"lines.{n}", line.vat_category) for n, line in enumerate(case.lines)]
    found += [
        (f"doc_allowances_charges.{n}", one.vat_category) for n, one in enumerate(case.doc_allowances_charges)
    ]
    if any(category == "O" for _, category in found):
        for field, category in found:
            if category != "O":
                yield Fault(f"{field}.vat_category", category, "O, as the others are (BR-O-11)")
