"""The closure of a job, from one place: its operations, their order, their hours, what they take, ways in."""

from catalogue.calc.order import CycleInWorkError, find_cycles
from quotes.calc.access import access_choices, cheapest_access
from quotes.calc.closure_index import ClosureIndex
from quotes.calc.consumed import SUPPLIED_IN, consumed, to_buy
from quotes.calc.order import order_of_work
from quotes.calc.work_set import (
    INCLUDED_THERE,
    UnknownOperationError,
    brings,
    hours,
    hours_by_kind,
    job_closure,
)

__all__ = [
    "INCLUDED_THERE",
    "SUPPLIED_IN",
    "ClosureIndex",
    "CycleInWorkError",
    "UnknownOperationError",
    "access_choices",
    "brings",
    "cheapest_access",
    "consumed",
    "find_cycles",
    "hours",
    "hours_by_kind",
    "job_closure",
    "order_of_work",
    "to_buy",
]
