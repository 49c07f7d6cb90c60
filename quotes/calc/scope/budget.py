"""The best that can be had for a sum with tax.

The programme sees articles, work and machine work with their taxes. Consumables are a share of labour between
a least and a most: either the share and the least fit into the budget, or the most does, and both are tried.
Discount and the desk's own lines come off the budget first; what is left, rounding and what was set by hand
on a line, is taken off until the sum on the quote keeps within it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from catalogue.calc.money import HUNDRED, ZERO
from quotes.calc.money.by_hand import own_line
from quotes.calc.money.pricing import Pricing
from quotes.calc.money.totals import totals
from quotes.calc.scope.plan import Plan
from quotes.calc.scope.programme import Limits, Purse
from quotes.calc.scope.reach import safest
from quotes.calc.scope.search import FoundPlan, Search

Consumables = Callable[[Search, float], list[Purse]]
ROUNDINGS = 20
"""Smallest units of money by which rounding may favour a plan: half of one for each line of a quote."""
TRIES = 8


def for_budget(search: Search, gross: float) -> FoundPlan:
    """The safest plan whose price with tax keeps within the budget; the must list where nothing does.

    Under the rider-safety ceiling where the budget pays for that, else as safe as it can be.
    """
    for ceiling in ((search.under_ceiling,), ()):
        tried = [_within(search, gross, _with_share, ceiling), _within(search, gross, _with_most, ceiling)]
        found = [each for each in tried if each is not None]
        if found:
            return max(found, key=lambda each: search.strata.chance(each.plan))
    return FoundPlan(search.least)


def _within(search: Search, gross: float, purses: Consumables, ceiling: Limits) -> FoundPlan | None:
    over = _made_dearer_by_hand(search) - ROUNDINGS / 10.0**search.case.shop.decimals
    for _ in range(TRIES):
        found = safest(search, [*purses(search, _for_lines(search, gross) - over), *ceiling])
        if found is None:
            return None
        beyond = _price(search, found.plan) - gross
        if beyond <= 0.0:
            return found
        over += beyond + 1e-6
    return None


def _price(search: Search, plan: Plan) -> float:
    return float(search.pricing.gross(plan))


def _for_lines(search: Search, gross: float) -> float:
    """What of a budget is left for the lines that are chosen: before the discount, without the desk's own."""
    edits, shop = search.case.edits, search.case.shop
    kept = 1.0 - float(edits.discount_pct / HUNDRED)
    own = [own_line(each, number, shop) for number, each in enumerate(edits.own_lines, 1) if each.included]
    return (gross / kept if kept else math.inf) - float(totals(own, shop, firm=True).gross.typical)


def _made_dearer_by_hand(search: Search) -> float:
    """What quantities and prices set by hand add to the must list's price; less than nothing if they save."""
    case = search.case
    if not case.edits.lines:
        return 0.0
    edits = {**case.request.edits, case.tier.code: case.edits.model_copy(update={"lines": {}})}
    plain = replace(case, request=case.request.model_copy(update={"edits": edits}))
    return _price(search, search.least) - float(Pricing(plain).gross(search.least))


def _with_share(search: Search, lines: float) -> list[Purse]:
    """Consumables as a share of labour, the least at least."""
    rule, taxed = search.case.shop.consumables, 1.0 + search.pricing.tax_share("consumables")
    share = taxed * float(rule.labour_pct / HUNDRED)
    own = [each for each in search.case.edits.own_lines if each.kind == "labour" and each.included]
    labour = sum((each.quantity * each.unit_price for each in own), ZERO)
    return [Purse(lines - share * float(labour), on_labour=share), Purse(lines - taxed * float(rule.least))]


def _with_most(search: Search, lines: float) -> list[Purse]:
    """Consumables at their most."""
    rule, taxed = search.case.shop.consumables, 1.0 + search.pricing.tax_share("consumables")
    return [Purse(lines - taxed * float(rule.most))]
