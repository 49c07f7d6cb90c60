"""What a list moves of a margin: parts are bought at what they cost on the day it is looked at."""

from __future__ import annotations

from decimal import Decimal

from quotes.calc.prices.effect import PartMove, option_margin
from tests.cast import shipped

CATALOGUE = shipped("four600")
SPRING, PISTON = (CATALOGUE.parts[component, "stock"] for component in ("valve_spring", "piston"))


def line(component: str, quantity: int, net: str, cost: str) -> dict[str, object]:
    part = CATALOGUE.parts[component, "stock"]
    told = {"kind": "part", "code": component, "component": component, "description": part.name}
    return {**told, "quantity": str(quantity), "net": net, "cost": cost}


def test_a_part_that_rose_before_this_list_counts_at_what_it_costs_now() -> None:
    """Issued at 1 a piston: what it costs by now is in the margin on both sides of the list."""
    option = {
        "tune": "refresh",
        "lines": [line("valve_spring", 16, "160", "1"), line("piston", 4, "368", "4")],
    }
    move = PartMove(
        number=SPRING.number,
        engine_type="four600",
        component="valve_spring",
        grade="stock",
        cost_was=SPRING.cost,
        cost=SPRING.cost + 2,
        list_price=SPRING.list_price,
    )
    left = Decimal(160 + 368) - 16 * SPRING.cost - 4 * PISTON.cost
    assert option_margin(option, CATALOGUE, {SPRING.number: move}) == (left, left - 32)
    assert option_margin(option, CATALOGUE, {}) is None
