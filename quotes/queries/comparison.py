"""The worked-out comparison for a request, from the catalogue and the workshop as they stand."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from django.utils.translation import get_language

from catalogue.calc.engine import EngineCatalogue
from catalogue.queries import engine_catalogue
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.ask.faults import faults
from quotes.calc.ask.request import Request
from quotes.calc.compare import compare as compare
from quotes.calc.origin.worked import Explained, LeftAlone, explain, explain_left
from quotes.calc.sheet.values import Comparison, LeaveIt, Option
from quotes.calc.shop import Shop
from quotes.queries.workshop import shop_rules

KEPT = 32
"""What a workshop has on its desks: a sheet is opened, priced again and issued within minutes."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """All that a comparison follows from; two are the same where the first four are."""

    language: str
    request_json: str
    catalogue_id: int
    """Its own for as long as this value holds the catalogue."""
    shop_said: str
    request: Request = field(compare=False)
    catalogue: EngineCatalogue = field(compare=False)
    shop: Shop = field(compare=False)


def comparison_for(request: Request) -> Comparison:
    """Leave it and the options asked for; BadRequest with every fault where that can't be worked out.

    What was asked for a moment ago is not worked out again: the same request gives the same answer, always.
    """
    catalogue, shop = _catalogue_for(request), shop_rules(request.on)
    told = get_language() or "", request.model_dump_json(), id(catalogue), repr(shop)
    return _worked_out(_Asked(*told, request, catalogue, shop))


@lru_cache(maxsize=KEPT)
def _worked_out(asked: _Asked) -> Comparison:
    return compare(asked.request, asked.catalogue, asked.shop)


def explained(request: Request, option: Option) -> Explained:
    """The option of a worked-out request once more, with all that its figures rest on."""
    return explain(request, _catalogue_for(request), shop_rules(request.on), option)


def explained_left(request: Request, column: LeaveIt) -> LeftAlone:
    """Leaving it, of a worked-out request, in the same way."""
    return explain_left(request, _catalogue_for(request), shop_rules(request.on), column)


def faults_of(request: Request) -> tuple[Fault, ...]:
    """What is wrong with a request, each with its field, its value and what is allowed."""
    try:
        return faults(request, _catalogue_for(request), shop_rules(request.on))
    except BadRequest as bad:
        return bad.faults


def _catalogue_for(request: Request) -> EngineCatalogue:
    code = request.engine.type
    try:
        return engine_catalogue(code)
    except LookupError as unknown:
        raise BadRequest((Fault("engine.type", code, str(unknown)),)) from None
