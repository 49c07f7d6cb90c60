"""The main job: one request in, leave it and up to three options out, each held against the others."""

from __future__ import annotations

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say, say_inside
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.faults import request_faults
from quotes.calc.ask.request import Request
from quotes.calc.life.draws import Draws, Pairing, pair
from quotes.calc.scope.case import make_case
from quotes.calc.scope.decide import decide
from quotes.calc.scope.freshen import Openings
from quotes.calc.scope.grounds import Grounds, grounds_for
from quotes.calc.scope.scope_faults import scope_faults
from quotes.calc.sheet.chance_values import Against
from quotes.calc.sheet.leave_it import leave_it
from quotes.calc.sheet.measures import service
from quotes.calc.sheet.option import Worked, work_out
from quotes.calc.sheet.oversold import warned
from quotes.calc.sheet.values import Comparison, LeaveIt, Option
from quotes.calc.sheet.wording import assumptions, history_in_words, planned_in_words, target_in_words
from quotes.calc.sheet.words import whole_percent
from quotes.calc.shop import Shop

LEAVE_IT = "leave_it"


def compare(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Comparison:
    """Work out every tier asked for, and leaving it. The same request gives the same answer, always.

    Raises BadRequest with one fault for each field that can't be worked with.
    """
    grounds = _grounds(request, catalogue, shop)
    standard = min(catalogue.tiers, key=lambda code: catalogue.tiers[code].rank)
    known = grounds.get(standard)
    as_it_came = known.case if known else make_case(request, catalogue, shop, standard)
    left, left_draws = leave_it(as_it_came)
    openings = Openings(each.graph for each in grounds.values() if not each.case.leave)
    worked = [work_out(decide(each), openings) for each in grounds.values()]
    held = [_held_against(each, worked, left, left_draws) for each in worked]
    duty = catalogue.duties[request.planned.duty]
    return Comparison(
        on=request.on,
        currency=shop.currency,
        decimals=shop.decimals,
        engine_type=catalogue.engine_type.code,
        engine_type_name=catalogue.engine_type.name,
        duty=duty.code,
        duty_name=duty.name,
        planned=service(as_it_came, as_it_came.use),
        planned_in_words=planned_in_words(as_it_came),
        target_in_words=target_in_words(request, shop.currency),
        history_in_words=history_in_words(request, catalogue),
        checks=request.checks,
        firm=request.stripped,
        teardowns_seen=catalogue.teardowns_seen,
        shop_factor=shop.shop_factor,
        leave_it=left,
        options=tuple(warned(each, held, shop.decimals) for each in held),
        assumptions=assumptions(as_it_came, shop),
        budget=request.budget,
    )


def _grounds(request: Request, catalogue: EngineCatalogue, shop: Shop) -> dict[str, Grounds]:
    """The grounds of every tier asked for. Raises BadRequest."""
    found = request_faults(request, catalogue, shop)
    if found:
        raise BadRequest(found)
    grounds = grounds_for(request, catalogue, shop)
    found = scope_faults(grounds)
    if found:
        raise BadRequest(found)
    return grounds


def _held_against(one: Worked, all_worked: list[Worked], left: LeaveIt, left_draws: Draws) -> Option:
    """The option with its paired comparisons, and a word where it buys nothing that can be measured."""
    against = [_against(one, LEAVE_IT, left.name, left_draws)]
    against += [
        _against(one, other.option.tier, other.option.name, other.draws)
        for other in all_worked
        if other is not one
    ]
    said = list(one.option.notes)
    if against[0].verdict != "better":
        said.append(
            say(
                "{option} buys nothing in chance that can be measured against leaving it as it is.",
                option=one.option.name,
            )
        )
    return one.option.model_copy(update={"against": tuple(against), "notes": tuple(said)})


def _against(one: Worked, code: str, name: str, other: Draws) -> Against:
    found = pair(one.draws, other)
    return Against(
        other=code,
        better_share=found.better_share,
        verdict=found.verdict,
        difference=found.difference,
        difference_low=found.low,
        difference_high=found.high,
        sentence=_against_in_words(found, say_inside(name)),
    )


def _against_in_words(found: Pairing, other: str) -> str:
    difference = whole_percent(abs(found.difference))
    if found.verdict == "better":
        return say(
            "Better than {other} by {difference}, in most estimates.", other=other, difference=difference
        )
    if found.verdict == "worse":
        return say(
            "Worse than {other} by {difference}, in most estimates.", other=other, difference=difference
        )
    return say("Can't be told apart from {other}.", other=other)
