"""Builds the priced lines of a job: bench work, parts, machine work, consumables.

Before tax, in the shop's currency. The band before the strip-down comes from the shop's spread of hours, the
price list's range and the outside shop's low and high price.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal

from catalogue.calc.engine import KindOfWork, MachineWork, Part
from catalogue.calc.money import HUNDRED, ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.money.price import (
    consumables,
    labour_rate,
    line_net,
    machine_work_unit_price,
    part_quantity,
    sell_price,
)
from quotes.calc.money.priced import Priced, tax_code_for
from quotes.calc.shop import Shop

WORK_IN_WORDS: Mapping[KindOfWork, str] = {
    "strip": to_say("Strip down"),
    "clean": to_say("Clean"),
    "inspect": to_say("Inspect and measure"),
    "assemble": to_say("Assemble"),
    "test": to_say("Test"),
    "office": to_say("Receive, report and record"),
}
"""The kinds of bench work, in the order of their lines."""


def labour_line(kind: KindOfWork, hours: Decimal, shop: Shop) -> Priced:
    """Bench work of one kind; the band is the shop's spread of hours either way."""
    rate = labour_rate(kind, shop)
    spread = hours * shop.hours_spread_pct / HUNDRED
    low, net, high = (line_net(each, rate, shop.decimals) for each in (hours - spread, hours, hours + spread))
    return Priced(
        kind="labour",
        code=kind,
        description=say(WORK_IN_WORDS[kind]),
        quantity=hours,
        unit="h",
        unit_price=rate,
        net=net,
        low=low,
        high=high,
        tax_code=tax_code_for("labour", shop),
    )


def part_line(part: Part, quantity: int | None, shop: Shop) -> Priced:
    """Parts at their sell price; `quantity` None is the full set. The code is the component's."""
    count = Decimal(part_quantity(part, quantity))
    low, price, high = (
        sell_price(part.cost * factor, part.list_price * factor, shop)
        for factor in (part.range_low, Decimal(1), part.range_high)
    )
    return Priced(
        kind="part",
        code=part.component,
        description=part.name,
        quantity=count,
        unit=part.unit,
        unit_price=price,
        net=line_net(count, price, shop.decimals),
        low=line_net(count, low, shop.decimals),
        high=line_net(count, high, shop.decimals),
        tax_code=tax_code_for("part", shop),
        component=part.component,
        cost=line_net(count, part.cost, shop.decimals),
        list_price=part.list_price,
    )


def in_grade(name: str, grade: str) -> str:
    """The words of a line for an article that comes in grades of which one is meant."""
    return f"{name}, {grade}"


def machine_work_line(work: MachineWork, quantity: Decimal | int, shop: Shop) -> Priced:
    """`quantity` units of work sent out, with the shop's markup."""
    count = Decimal(quantity)
    low, price, high = (
        machine_work_unit_price(cost, shop) for cost in (work.cost_low, work.cost, work.cost_high)
    )
    return Priced(
        kind="machine_work",
        code=work.code,
        description=work.name,
        quantity=count,
        unit=work.unit,
        unit_price=price,
        net=line_net(count, price, shop.decimals),
        low=line_net(count, low, shop.decimals),
        high=line_net(count, high, shop.decimals),
        tax_code=tax_code_for("machine_work", shop),
        cost=line_net(count, work.cost, shop.decimals),
    )


def consumables_line(lines: Iterable[Priced], shop: Shop) -> Priced | None:
    """The consumables that go with the labour among `lines`; None where there is none to charge."""
    labour = [line for line in lines if line.kind == "labour"]
    net = consumables(sum((line.net for line in labour), ZERO), shop)
    if net == ZERO:
        return None
    return Priced(
        kind="consumables",
        code="workshop",
        description=say("Workshop consumables"),
        quantity=Decimal(1),
        unit="job",
        unit_price=net,
        net=net,
        low=consumables(sum((line.low for line in labour), ZERO), shop),
        high=consumables(sum((line.high for line in labour), ZERO), shop),
        tax_code=tax_code_for("consumables", shop),
    )
