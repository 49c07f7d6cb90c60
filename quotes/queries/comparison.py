"""The worked-out comparison for a request, from the catalogue and the workshop as they stand."""

from __future__ import annotations

from catalogue.calc.engine import EngineCatalogue
from catalogue.queries import engine_catalogue
from quotes.calc.compare import compare, faults
from quotes.calc.fault import BadRequest, Fault
from quotes.calc.request import Request
from quotes.calc.sheet import Comparison
from quotes.queries.workshop import shop_rules


def comparison_for(request: Request) -> Comparison:
    """Leave it and the options asked for. Raises BadRequest with every fault of the request."""
    return compare(request, catalogue_for(request), shop_rules(request.on))


def faults_of(request: Request) -> tuple[Fault, ...]:
    """What is wrong with a request, each with its field, its value and what is allowed."""
    try:
        catalogue = catalogue_for(request)
    except BadRequest as error:
        return error.faults
    return faults(request, catalogue, shop_rules(request.on))


def catalogue_for(request: Request) -> EngineCatalogue:
    """The catalogue of the request's engine type. Raises BadRequest where there is none."""
    try:
        return engine_catalogue(request.engine.type)
    except LookupError as error:
        raise BadRequest((Fault("engine.type", request.engine.type, str(error)),)) from error
