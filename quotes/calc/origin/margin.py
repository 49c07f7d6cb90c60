"""The margin opened, for the owner: what the bought lines bring, less what they cost, line by line."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.price import line
from quotes.calc.origin.values import MINUS, TIMES, Origin, money, number
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.words import first_large


def margin(told: Explained) -> Origin:
    """Net less cost of the parts and the work sent out; labour has no cost here."""
    job, decimals = told.first, told.shop.decimals
    bought = [each for each in told.option.lines if each.cost is not None]
    net = sum((each.net for each in bought), ZERO)
    cost = sum((each.cost or ZERO for each in bought), ZERO)
    share = number(float(100 * (net - cost) / net), 1) if net else "0"
    return Origin(
        say("Margin on parts and work sent out"),
        money(net - cost, decimals),
        say("{share} % of net, where the cost is known.", share=share),
        parts=(
            Origin(
                say("Net, where the cost is known"),
                money(net, decimals),
                parts=tuple(line(job, each.key) for each in bought),
                adds="sum",
                exact=net,
            ),
            Origin(
                say("What it costs us"),
                f"{MINUS}{money(cost, decimals)}",
                parts=tuple(_cost(job, each, each.cost or ZERO) for each in bought),
                adds="sum",
                exact=-cost,
                private=True,
            ),
        ),
        adds="sum",
        exact=net - cost,
        key="margin",
        private=True,
    )


def _cost(job: WorkedJob, bought: Line, cost: Decimal) -> Origin:
    """Quantity times what one of it costs the shop."""
    decimals, part = job.shop.decimals, job.case.part(bought.component) if bought.component else None
    work = job.catalogue.machine_work.get(bought.code)
    each, source = (part.cost, part.source) if part else (work.cost, work.source) if work else (None, "")
    rule = ""
    if each is not None:
        rule = f"{number(float(bought.quantity), 4)} {bought.unit} {TIMES} {money(each, decimals)}"
    return Origin(
        first_large(bought.description),
        f"{MINUS}{money(cost, decimals)}",
        rule,
        source,
        exact=-cost,
        private=True,
    )
