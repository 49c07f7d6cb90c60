"""What an option comes to: asked first, with its openings, by the season, with the loss weighed."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import HUNDRED
from catalogue.calc.said import say
from quotes.calc.life.units import season
from quotes.calc.origin.sums import gross
from quotes.calc.origin.values import TIMES, Origin, hours, money, number
from quotes.calc.origin.worked import Explained, WorkedWay
from quotes.calc.sheet.measures import in_planned_unit
from quotes.calc.sheet.values import LeaveIt
from quotes.calc.sheet.words import amount_in_words, chance_in_words, whole_percent


def deposit(told: Explained) -> Origin:
    """What is asked at the yes."""
    pct, decimals = told.shop.deposit.gross_pct, told.shop.decimals
    whole = told.option.gross.typical
    return Origin(
        say("Deposit"),
        money(told.option.deposit, decimals),
        say("{percent} % of {amount}", percent=number(float(pct)), amount=money(whole, decimals)),
        say("the workshop's settings"),
        (
            Origin(say("With tax"), money(whole, decimals), exact=whole, key="gross"),
            Origin(say("Share asked"), f"{number(float(pct))} %", exact=pct / HUNDRED),
        ),
        "price",
        told.option.deposit,
        "deposit",
    )


def season_gross(told: Explained) -> Origin | None:
    """The planned service with its openings made; None where there are none."""
    plan, decimals = told.option.season, told.shop.decimals
    if plan is None:
        return None
    parts = tuple(
        Origin(
            say("Service {number}: {done}", number=each.number, done=each.done),
            money(each.gross.typical, decimals),
            say(
                "{hours} on the bench; net {net}, tax {tax}.",
                hours=hours(each.hours),
                net=money(each.net.typical, decimals),
                tax=money(each.tax.typical, decimals),
            ),
            parts=gross(job).parts if each.number > 1 else (),
            adds="sum" if each.number > 1 else "",
            exact=each.gross.typical,
            key=job.key("gross"),
        )
        for each, job in zip(plan.services, told.jobs, strict=True)
    )
    return Origin(
        say("The whole planned service, its openings made, with tax"),
        money(plan.gross.typical, decimals),
        say("{sentence} Later openings are at today's prices.", sentence=plan.sentence),
        parts=parts,
        adds="sum",
        exact=plan.gross.typical,
        key="season",
    )


def per_season(told: Explained) -> Origin:
    """What the option costs by the season: over its openings, or as long as it is good for."""
    shown, decimals = told.option, told.shop.decimals
    whole = in_planned_unit(told.case, season(told.case.duty))
    over = in_planned_unit(told.case, told.bound.use if shown.season is None else told.case.use)
    share = Decimal(str(whole)) / Decimal(str(max(over, 1e-6)))
    amounts = {
        "season": amount_in_words(whole, told.unit),
        "use": amount_in_words(round(over, 1), told.unit),
    }
    said = say("{season} over {use}, its openings made.", **amounts)
    if shown.season is None:
        said = say("{season} over {use}, which it is good for.", **amounts)
    return Origin(
        say("Cost for a season"),
        money(shown.cost_per_season, decimals),
        say("The price, as often as what it buys goes into a season."),
        say("season: {source}", source=told.case.duty.source),
        (
            _price(told, shown.planned_gross.typical),
            Origin(say("Times in a season"), number(float(share), 3), said, exact=share),
        ),
        "price",
        shown.cost_per_season,
        "per_season",
    )


def expected_loss(told: WorkedWay) -> Origin | None:
    """The price with what a stop would cost, weighed with its chance; None where no loss was named."""
    loss, shown, decimals = told.case.request.loss, told.shown, told.shop.decimals
    if loss is None or shown.expected_loss is None:
        return None
    price = shown.gross if isinstance(shown, LeaveIt) else shown.planned_gross.typical
    return Origin(
        say("With the loss you named"),
        money(shown.expected_loss, decimals),
        parts=(_price(told, price), _loss_weighed(told, loss, shown.expected_loss - price)),
        adds="sum",
        exact=shown.expected_loss,
        key="expected_loss",
    )


def _price(told: WorkedWay, price: Decimal) -> Origin:
    key = "season" if len(told.jobs) > 1 else "gross"
    return Origin(say("With tax"), money(price, told.shop.decimals), exact=price, key=key)


def _loss_weighed(told: WorkedWay, loss: Decimal, weighed: Decimal) -> Origin:
    stopped, decimals = 1 - Decimal(str(round(told.shown.chance.value, 6))), told.shop.decimals
    parts = (
        Origin(say("The loss named"), money(loss, decimals), exact=loss),
        Origin(
            say("Stopped"),
            whole_percent(float(stopped)),
            say("1 less the chance of finishing."),
            exact=stopped,
            key="chance",
        ),
    )
    return Origin(
        say("The loss, weighed"),
        money(weighed, decimals),
        _weighed(told, money(loss, decimals)),
        say("the loss: as the customer named it"),
        parts,
        "price",
        weighed,
    )


def _weighed(told: WorkedWay, loss: str) -> str:
    chance = told.shown.chance.value
    return say(
        "{loss} {times} the chance of being stopped, {stopped} (it finishes {finishes})",
        loss=loss,
        times=TIMES,
        stopped=whole_percent(1.0 - chance),
        finishes=chance_in_words(chance),
    )


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
        say("To take in: {part}", part=risk.name),
        money(risk.cost_to_renew, decimals),
        say(
            "The full set, machine work and bench work that it brings and the option does not hold; net, "
            "before consumables."
        ),
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
