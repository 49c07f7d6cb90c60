"""Checks a file of customers against the catalogue and the records; page and command share it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quotes.calc.intake.customer_plan import CustomersPlan
from quotes.imports.customer_columns import BY_KEY, Choices
from quotes.imports.faults import RowFault, shown
from quotes.imports.read_customers import ReadFile, read_customers
from quotes.queries.import_customers import code_choices, plan_against_records


@dataclass(frozen=True, slots=True)
class CheckedCustomers:
    """What a file holds and would do. It may be taken in only where there is no fault at all."""

    file: ReadFile
    plan: CustomersPlan
    faults: tuple[RowFault, ...]

    @property
    def sound(self) -> bool:
        return not self.faults


def choices() -> Choices:
    """The codes that a file may name, from the catalogue as it is."""
    types, duties, tiers, units = code_choices()
    return Choices(type_code=types, duty=duties, tier=tiers, units_of_duty=units)


def check_customers(content: bytes, on: date) -> CheckedCustomers:
    """Read a file and hold it against the records. FileFault where it can't be read at all."""
    found = read_customers(content, choices(), on)
    plan = plan_against_records(found.customers)
    said = [
        RowFault(found.sheet, one.line, BY_KEY[one.key].heading, shown(one.value), one.reason, one.allowed)
        for one in plan.contradictions
    ]
    return CheckedCustomers(found, plan, tuple(sorted([*found.faults, *said], key=lambda fault: fault.line)))
