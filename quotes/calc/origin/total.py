"""The sum opened: net by line, tax by group, what is asked first, and what the option costs by the season."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.life.units import season
from quotes.calc.origin.price import line
from quotes.calc.origin.values import TIMES, Origin, hours, money, number
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.measures import in_planned_unit
from quotes.calc.sheet.values import TaxGroup
from quotes.calc.sheet.words import amount_in_words, chance_in_words, whole_percent

SECTIONS = {
    "labour": "Strip and rebuild",
    "part": "Parts",
    "machine_work": "Machine work sent out",
    "consumables": "Consumables",
    "discount": "Discount",
}


def gross(told: Explained) -> Origin:
    """The sum with tax."""
    sums = told.option.gross
    decimals = told.shop.decimals
    return Origin(
        "With tax",
        money(sums.typical, decimals),
        _band(told),
        parts=(net(told), *(_tax(told, group) for group in told.option.tax_groups)),
        adds="sum",
        exact=sums.typical,
        key="gross",
    )


def net(told: Explained) -> Origin:
    """The sum before tax, by section."""
    kinds = [kind for kind in SECTIONS if any(each.kind == kind for each in told.lines.values())]
    whole = told.option.net.typical
    return Origin(
        "Net",
        money(whole, told.shop.decimals),
        parts=tuple(section(told, kind) for kind in kinds),
        adds="sum",
        exact=whole,
        key="net",
    )


def section(told: Explained, kind: str) -> Origin:
    """The lines of one kind."""
    found = [key for key, each in told.lines.items() if each.kind == kind]
    whole = sum((told.lines[key].net for key in found), ZERO)
    return Origin(
        SECTIONS[kind],
        money(whole, told.shop.decimals),
        parts=tuple(line(told, key) for key in found),
        adds="sum",
        exact=whole,
        key=f"section:{kind}",
    )


def _tax(told: Explained, group: TaxGroup) -> Origin:
    decimals = told.shop.decimals
    parts = tuple(
        Origin(f"{name}, {number(float(rate), 4)} %", money(tax, decimals), exact=tax)
        for name, rate, tax in group.components
    )
    return Origin(
        f"Tax on {money(group.taxable, decimals)}",
        money(group.tax, decimals),
        f"{money(group.taxable, decimals)} {TIMES} {number(float(group.rate_pct), 4)} %, rounded once for "
        f"all lines of this rate. {group.reason}".strip(),
        "the workshop's taxes",
        parts=parts,
        adds="sum" if parts else "",
        exact=group.tax,
    )


def _band(told: Explained) -> str:
    sums, decimals = told.option.gross, told.shop.decimals
    if told.case.request.stripped:
        return "The engine has been stripped and measured: the price is firm."
    if_needed = sum((each.net for each in told.option.if_needed), ZERO)
    more = f", and what is priced and not included ({money(if_needed, decimals)} net)" if if_needed else ""
    return (
        f"Before the strip-down between {money(sums.low, decimals)} and {money(sums.high, decimals)}: the "
        f"low and high of every line added up{more}."
    )


def deposit(told: Explained) -> Origin:
    """What is asked at the yes."""
    pct, decimals = told.shop.deposit.gross_pct, told.shop.decimals
    return Origin(
        "Deposit",
        money(told.option.deposit, decimals),
        f"{number(float(pct))} % of {money(told.option.gross.typical, decimals)}",
        "the workshop's settings",
        exact=told.option.deposit,
        key="deposit",
    )


def season_gross(told: Explained) -> Origin | None:
    """The planned service with its openings made; None where there are none."""
    plan, decimals = told.option.season, told.shop.decimals
    if plan is None:
        return None
    parts = tuple(
        Origin(
            f"Service {each.number}: {each.done}",
            money(each.gross.typical, decimals),
            f"{hours(each.hours)} on the bench; net {money(each.net.typical, decimals)}, "
            f"tax {money(each.tax.typical, decimals)}.",
            exact=each.gross.typical,
            key="gross" if each.number == 1 else "",
        )
        for each in plan.services
    )
    return Origin(
        "The whole planned service, its openings made, with tax",
        money(plan.gross.typical, decimals),
        f"{plan.sentence} Later openings are at today's prices.",
        parts=parts,
        adds="sum",
        exact=plan.gross.typical,
        key="season",
    )


def per_season(told: Explained) -> Origin:
    """What the option costs by the season: over its openings, or as long as it is good for."""
    shown, decimals = told.option, told.shop.decimals
    whole = amount_in_words(in_planned_unit(told.case, season(told.case.duty)), told.unit)
    good = amount_in_words(shown.good_for.amount, shown.good_for.unit)
    over = f"{good}, which it is good for"
    if shown.season is not None:
        over = f"{amount_in_words(in_planned_unit(told.case, told.case.use), told.unit)}, its openings made"
    return Origin(
        "Cost for a season",
        money(shown.cost_per_season, decimals),
        f"{money(shown.planned_gross.typical, decimals)} over {over}, {TIMES} {whole}.",
        f"season: {told.case.duty.source}",
        exact=shown.cost_per_season,
        key="per_season",
    )


def expected_loss(told: Explained) -> Origin | None:
    """The price with what a stop would cost, weighed with its chance; None where no loss was named."""
    loss, shown, decimals = told.case.request.loss, told.option, told.shop.decimals
    if loss is None or shown.expected_loss is None:
        return None
    price = shown.planned_gross.typical
    weighed = shown.expected_loss - price
    parts = (
        Origin("With tax", money(price, decimals), exact=price, key="season" if shown.season else "gross"),
        Origin(
            "The loss, weighed",
            money(weighed, decimals),
            f"{money(loss, decimals)} {TIMES} the chance of being stopped, {_stopped(told)}",
            "the loss: as the customer named it",
            exact=weighed,
        ),
    )
    return Origin(
        "With the loss you named",
        money(shown.expected_loss, decimals),
        parts=parts,
        adds="sum",
        exact=shown.expected_loss,
        key="expected_loss",
    )


def _stopped(told: Explained) -> str:
    chance = told.option.chance.value
    return f"{whole_percent(1.0 - chance)} (it finishes {chance_in_words(chance)})"


def adding(told: Explained, code: str) -> Origin:
    """What a component that is left would cost to take in, net, with all that it brings."""
    risk = told.option.offered.get(code) or told.option.left[code]
    decimals = told.shop.decimals
    nodes = [n for n in told.scope.brings.get(code, ()) if n not in told.scope.plan.parents]
    prices = {node: told.scope.pricing.quick.get(node, 0.0) for node in nodes}
    parts = tuple(
        Origin(_name(told, node), money(Decimal(str(round(price, 6))), decimals), exact=price)
        for node, price in sorted(prices.items(), key=lambda each: (-each[1], each[0]))
        if price
    )
    return Origin(
        f"To take in: {risk.name}",
        money(risk.cost_to_renew, decimals),
        "The full set, machine work and bench work that it brings and the option does not hold; net, before "
        "consumables.",
        parts=parts,
        adds="sum" if parts else "",
        exact=risk.cost_to_renew,
        key=f"adding:{code}",
    )


def _name(told: Explained, node: tuple[str, str]) -> str:
    kind, code = node
    if kind == "work":
        return told.catalogue.operations[code].name
    if kind == "out":
        return told.catalogue.machine_work[code].name
    part = told.case.part(code)
    return part.name if part else told.catalogue.components[code].name
