"""Checks the rows of a catalogue against each other: one fault per thing that can't be right."""

from __future__ import annotations

from catalogue.calc.check_order import order_faults
from catalogue.calc.check_references import reference_faults
from catalogue.calc.check_values import value_faults
from catalogue.calc.fault import Fault
from catalogue.calc.rows import CatalogueRows


def check(rows: CatalogueRows) -> tuple[Fault, ...]:
    """Every fault of the rows taken together; empty when they may be used.

    The order of work is looked at only when all names are right: a loop over a misspelt name helps nobody.
    """
    found = (*value_faults(rows), *reference_faults(rows))
    return found or tuple(order_faults(rows))
