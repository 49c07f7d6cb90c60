"""The age at which a part is best renewed, as a library's documentation has it."""

from __future__ import annotations

from quotes.calc.life.replacement import Law, replacement
from tests.outside.check import OutsideCheck

DOCUMENTATION = "documentation of reliability, 'Optimal replacement time'"


def age_and_cost_rate(shape: float, eta: float, planned: float, failed: float) -> tuple[float, float]:
    found = replacement(Law(eta, shape), planned, failed)
    assert found.age is not None
    return found.age, found.cost_rate


CHECKS = (
    OutsideCheck(
        "age to renew at and cost rate, shape 2.5, life 1000, costs 1 and 5",
        age_and_cost_rate,
        (2.5, 1000.0, 1.0, 5.0),
        (493.047, 0.0035),
        (1e-3, 5e-5),
        f"{DOCUMENTATION}: it prints 493.19 from a grid, this is the exact root",
        "published, read",
    ),
)
