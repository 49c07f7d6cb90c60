"""The tier: what mild and full power change is part of them; refresh has a list only when it is asked for."""

from __future__ import annotations

import math
from collections.abc import Iterator

from catalogue.calc.said import say, say_inside
from quotes.calc.scope.case import Case
from quotes.calc.scope.rules.base import Must


def find(case: Case) -> Iterator[Must]:
    """The demands of the tier's template, where it adds to what is fitted."""
    if not takes_list(case):
        return
    tier, catalogue = case.tier, case.catalogue
    sentence = say("Part of {tier}.", tier=say_inside(tier.name))
    for component in tier.renew:
        if component in catalogue.components and component not in tier.left_out_unless_opened:
            yield Must(("new", component), "tier", sentence)
    for component in tier.recondition:
        if component in catalogue.components:
            yield Must(("done", component), "tier", sentence)
    for operation in tier.operations:
        if operation in catalogue.operations:
            yield Must(("work", operation), "tier", sentence)
    for asked in tier.machine_work:
        if asked.code in catalogue.machine_work:
            pieces = math.floor(asked.share * catalogue.machine_work[asked.code].quantity + 0.5)
            yield Must(("out", asked.code), "tier", sentence, pieces=pieces)


def takes_list(case: Case) -> bool:
    """Whether this option holds its tier's whole list."""
    return case.adds_tune or (case.request.refresh_list and case.tier.rank == 0)


def once_open(case: Case) -> Iterator[Must]:
    """What the tier's list adds when the cases are open anyway."""
    if not takes_list(case):
        return
    for component in case.tier.renew:
        if component in case.tier.left_out_unless_opened and component in case.catalogue.components:
            tier = say_inside(case.tier.name)
            yield Must(("new", component), "tier", say("Part of {tier}, as it is open anyway.", tier=tier))
