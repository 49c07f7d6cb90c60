"""Rows of a list and what stands, for tests to change a word of."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from catalogue.calc.price_list.difference import Rule
from catalogue.calc.price_list.listed import Listed, number_key
from catalogue.calc.price_list.standing import Stands, as_listed

OWN = Rule("USD", None, Decimal(20))


def row(number: str, cost: str = "10.00", line: int = 2, **changed: Any) -> Listed:
    said: dict[str, Any] = {"line": line, "number": number, "name": f"part {number}", "cost": Decimal(cost)}
    said.update(changed)
    return Listed(**said)


def stands(*rows: Listed) -> dict[str, Stands]:
    """What stands after these rows were taken in, in the catalogue's currency."""
    return {number_key(one.number): as_listed(one, one.key, "USD", None) for one in rows}
