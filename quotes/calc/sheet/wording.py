"""The sentences of a comparison: what was told of the engine, what is planned, what it all rests on."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Carried, Request, Segment
from quotes.calc.scope.case import Case
from quotes.calc.scope.decide import DEFAULT_TARGET
from quotes.calc.sheet.measures import in_planned_unit, planned_unit
from quotes.calc.sheet.words import amount_in_words, chance_in_words, listed, whole_percent
from quotes.calc.shop import Shop

CHECKED = {
    "each_meeting": "checked at each meeting: filter cut open, leak-down, clutch play",
    "each_season": "checked once a season",
    "never": "not checked between openings",
}
DELIVERED = {"loose": "loose", "in_chassis": "in its chassis"}


def planned_in_words(case: Case) -> str:
    """The planned service as one says it."""
    amount = amount_in_words(in_planned_unit(case, case.use), planned_unit(case))
    return f"{amount} of {_in_a_sentence(case.duty.name)}"


def target_in_words(request: Request, currency: str) -> str:
    """What was asked of the sums."""
    if request.budget is not None:
        return f"the safest for {request.budget:,.2f} {currency} with tax"
    if request.target is not None:
        return f"{chance_in_words(float(request.target))}, {whole_percent(float(request.target))}"
    return f"{whole_percent(DEFAULT_TARGET)} of what an all-new engine reaches"


def history_in_words(request: Request, catalogue: EngineCatalogue) -> tuple[str, ...]:
    """What the engine has run, and what was renewed on the way."""
    history = request.engine.history
    if history is None:
        lines = ["Its history is not known."]
    elif not history:
        lines = ["It has not run since it was built."]
    else:
        lines = [_segment(segment, catalogue) for segment in history]
    carried = request.engine.carried
    for code, renewal in request.engine.renewed.items():
        if code not in carried:
            at = amount_in_words(renewal.at, renewal.unit)
            lines.append(f"{catalogue.components[code].name.capitalize()} renewed at {at}.")
    lines += [carried_in_words(catalogue.components[code].name, part) for code, part in carried.items()]
    return tuple(lines)


def carried_in_words(name: str, part: Carried) -> str:
    """A part with an age of its own, unit by unit."""
    called = f"{name[:1].upper()}{name[1:]} {part.serial}"
    if part.history is None:
        return f"{called}: its age is not known."
    ran: dict[str, Decimal] = {}
    for segment in part.history:
        ran[segment.unit] = ran.get(segment.unit, Decimal(0)) + segment.amount
    said = listed([amount_in_words(amount, unit) for unit, amount in ran.items() if amount])
    return f"{called} has run {said} itself." if said else f"{called} is new."


def _segment(segment: Segment, catalogue: EngineCatalogue) -> str:
    amount = amount_in_words(segment.amount, segment.unit)
    duty = _in_a_sentence(catalogue.duties[segment.duty].name)
    tune = _in_a_sentence(catalogue.tiers[segment.tier].name)
    return f"{amount} of {duty}, built as {tune}."


def assumptions(case: Case, shop: Shop) -> tuple[str, ...]:
    """What every figure of the comparison rests on."""
    lines = [
        f"The service planned is {planned_in_words(case)}, the engine {CHECKED[case.request.checks]}.",
        f"The engine comes to us {DELIVERED[case.request.engine.delivered]}.",
        "Lives, hours and prices are this workshop's catalogue; most lives are trade habit, not test data.",
        "Oil, filter, coolant and plugs are changed at their own interval and are outside the chance.",
        f"Each assembly operation carries a chance of {shop.assembly_fault_chance * 10_000:.0f} in 10,000 "
        "of a fault of our own.",
    ]
    if shop.shop_factor == 1.0:
        lines.append("Chances are as the catalogue has them: the shop factor is 1.")
    else:
        lines.append(f"All hazards are scaled to the workshop's own record by {shop.shop_factor:g}.")
    if not case.request.stripped:
        lines.append("Before the strip-down every price is a band, subject to strip-down.")
    return tuple(lines)


def in_a_row(case: Case, components: frozenset[str] | list[str]) -> str:
    """Names of components as one says them, in the order of the catalogue."""
    return listed([c.name for code, c in case.catalogue.components.items() if code in components])


def _in_a_sentence(name: str) -> str:
    return name[:1].lower() + name[1:]
