"""A sheet made by the real sums from the catalogue that ships: a tired 600 inline four, a tired single."""

from __future__ import annotations

from functools import cache

from quotes.calc.ask.request import Request
from quotes.calc.compare import compare
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.values import Comparison
from tests.calc.asked import tired_four, tired_single
from tests.calc.small import SHOP
from tests.cast import shipped
from tests.sample_sheet import sample_sheet


def worked(request: Request) -> Comparison:
    return compare(request, shipped(request.engine.type), SHOP)


@cache
def worked_four() -> Sheet:
    """Refresh, mild and full power for 2,000 endurance miles after 4,000 sprint miles."""
    return sample_sheet(comparison=worked(tired_four()))


@cache
def worked_single() -> Sheet:
    """The 450 single for 25 motocross hours after 38."""
    return sample_sheet(comparison=worked(tired_single()), engine_name="450 single", engine_number="S4-771")
