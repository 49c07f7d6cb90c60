"""The sentences of a comparison: what was told of the engine, what is planned, what it all rests on."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say, say_figure, say_inside, to_say
from quotes.calc.ask.request import Carried, Request, Segment
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import DEFAULT_TARGET
from quotes.calc.sheet.measures import in_planned_unit, planned_unit
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.words import amount_in_words, chance_in_words, first_large, listed, whole_percent
from quotes.calc.shop import Shop

CHECKED = {
    "each_meeting": to_say("checked at each meeting: filter cut open, leak-down, clutch play"),
    "each_season": to_say("checked once a season"),
    "never": to_say("not checked between openings"),
}
DELIVERED = {
    "loose": to_say("The engine comes to us loose."),
    "in_chassis": to_say("The engine comes to us in its chassis."),
}


def planned_in_words(case: Case) -> str:
    """The planned service as one says it."""
    amount = amount_in_words(in_planned_unit(case, case.use), planned_unit(case))
    return say("{amount} of {duty}", amount=amount, duty=_in_a_sentence(case.duty.name))


def target_in_words(request: Request, currency: str) -> str:
    """What was asked of the sums."""
    if request.budget is not None:
        sum_said = say_figure(request.budget, 2)
        return say("the safest for {sum} {currency} with tax", sum=sum_said, currency=currency)
    if request.target is not None:
        return f"{chance_in_words(float(request.target))}, {whole_percent(float(request.target))}"
    return say("{percent} of what an all-new engine reaches", percent=whole_percent(DEFAULT_TARGET))


def history_in_words(request: Request, catalogue: EngineCatalogue) -> tuple[str, ...]:
    """What the engine has run, and what was renewed on the way."""
    history = request.engine.history
    if history is None:
        lines = [say("Its history is not known.")]
    elif not history:
        lines = [say("It has not run since it was built.")]
    else:
        lines = [_segment(segment, catalogue) for segment in history]
    carried = request.engine.carried
    for code, renewal in request.engine.renewed.items():
        if code not in carried:
            at = amount_in_words(renewal.at, renewal.unit)
            name = first_large(catalogue.components[code].name)
            lines.append(say("{part} renewed at {amount}.", part=name, amount=at))
    lines += [carried_in_words(catalogue.components[code].name, part) for code, part in carried.items()]
    return tuple(lines)


def carried_in_words(name: str, part: Carried) -> str:
    """A part with an age of its own, unit by unit."""
    called = f"{first_large(name)} {part.serial}"
    if part.history is None:
        return say("{part}: its age is not known.", part=called)
    ran: dict[str, Decimal] = {}
    for segment in part.history:
        ran[segment.unit] = ran.get(segment.unit, Decimal(0)) + segment.amount
    said = listed([amount_in_words(amount, unit) for unit, amount in ran.items() if amount])
    if not said:
        return say("{part} is new.", part=called)
    return say("{part} has run {amount} itself.", part=called, amount=said)


def _segment(segment: Segment, catalogue: EngineCatalogue) -> str:
    amount = amount_in_words(segment.amount, segment.unit)
    duty = _in_a_sentence(catalogue.duties[segment.duty].name)
    tune = _in_a_sentence(catalogue.tiers[segment.tier].name)
    return say("{amount} of {duty}, built as {tune}.", amount=amount, duty=duty, tune=tune)


def assumptions(case: Case, shop: Shop) -> tuple[str, ...]:
    """What every figure of the comparison rests on."""
    lines = [
        say(
            "The service planned is {planned}, the engine {checked}.",
            planned=planned_in_words(case),
            checked=say(CHECKED[case.request.checks]),
        ),
        say(DELIVERED[case.request.engine.delivered]),
        say(
            "Lives, hours and prices are this workshop's catalogue; most lives are trade habit, not test "
            "data."
        ),
        say("Oil, filter, coolant and plugs are changed at their own interval and are outside the chance."),
        say(
            "Each assembly operation carries a chance of {count} in {out_of} of a fault of our own.",
            count=say_figure(shop.assembly_fault_chance * 10_000, 0),
            out_of=say_figure(10_000, 0),
        ),
    ]
    if shop.shop_factor == 1.0:
        lines.append(say("Chances are as the catalogue has them: the shop factor is 1."))
    else:
        factor = plain_figure(shop.shop_factor)
        lines.append(say("All hazards are scaled to the workshop's own record by {factor}.", factor=factor))
    if not case.request.stripped:
        lines.append(say("Before the strip-down every price is a band, subject to strip-down."))
    return tuple(lines)


def in_a_row(case: Case, components: frozenset[str] | list[str]) -> str:
    """Names of components as one says them, in the order of the catalogue."""
    return listed([c.name for code, c in case.catalogue.components.items() if code in components])


def _in_a_sentence(name: str) -> str:
    return say_inside(name)
