"""What is done and what it costs: lines, the order of work, the tax, and why each is there."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Value

State = Literal["must", "worth it", "offered", "left"]


Kind = Literal["labour", "part", "machine_work", "consumables", "discount"]


class Line(Value):
    """One priced line. `key` (kind:code) names it to the worksheet."""

    key: str
    kind: Kind
    code: str
    description: str
    quantity: Decimal
    unit: str
    unit_price: Decimal
    net: Decimal
    tax_code: str
    state: State
    reason_code: str
    reason: str
    component: str | None = None
    cost: Decimal | None = None
    """What the line costs the shop; taken out before a customer sees the sheet."""
    list_price: Decimal | None = None
    edited: str = ""
    """The note of the hand that changed it."""


class WorkStep(Value):
    """A labour operation in its place in the order of work."""

    code: str
    name: str
    kind: str
    hours: Decimal


class TaxGroup(Value):
    """Tax on the sum of one (category, rate); the components add up to the tax."""

    code: str
    category: str
    rate_pct: Decimal
    taxable: Decimal
    tax: Decimal
    components: tuple[tuple[str, Decimal, Decimal], ...]
    """Name, rate in per cent, tax."""
    reason: str = ""


class Reason(Value):
    """Why a component is dealt with as it is, for a customer to read."""

    component: str
    name: str
    code: str
    sentence: str
    state: State
    chain: tuple[str, ...] = ()
    """What brought it in, from the first cause on."""
    rider_safety: bool = False


class RenewalCost(Value):
    """What renewing a part takes of the shop, with all that it brings on top of the option, at cost."""

    parts: Decimal
    machine_work: Decimal
    hours: Decimal


class Risk(Value):
    """What a component that is left may do."""

    component: str
    name: str
    used_pct: float
    """Share of its life used when the planned service begins, per cent."""
    used_pct_at_end: float
    stops_in_100: float
    rider_safety: bool
    sentence: str
    cost_to_renew: Decimal
    """Net, with what it would bring along, on top of the option."""
    takes: RenewalCost | None = None
    """Where it is offered; taken out before a customer sees the sheet."""
    refused_by: str = ""
