"""The worked-out comparison for a request, from the catalogue and the workshop as they stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quotes.calc.request import Request
from quotes.calc.sheet import Comparison
from quotes.queries.workshop import shop_rules

if TYPE_CHECKING:
    from quotes.calc.compare import Fault


def comparison_for(request: Request) -> Comparison:
    """Leave it and the options asked for. The request must be free of faults, see `faults_of`."""
    from catalogue.queries import engine_catalogue
    from quotes.calc.compare import compare  # scipy takes most of a second to import

    return compare(request, engine_catalogue(request.engine.type), shop_rules(request.on))


def faults_of(request: Request) -> tuple[Fault, ...]:
    """What is wrong with a request, each with its field, its value and what is allowed."""
    from catalogue.queries import engine_catalogue
    from quotes.calc.compare import faults

    return faults(request, engine_catalogue(request.engine.type), shop_rules(request.on))
