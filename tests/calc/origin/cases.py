"""Options opened for the tests: a few engines and duties, every tier, each worked out once."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import lru_cache
from typing import Any

from quotes.calc.ask.request import Edits, LineChange, OwnLine, Reading, Request
from quotes.calc.compare import compare
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import Explained, LeftAlone, explain, explain_left
from tests.calc.asked import asked, ran, tired_four, tired_single
from tests.calc.small import SHOP
from tests.cast import shipped

BY_HAND = Edits(
    lines={"part:engine_oil": LineChange(quantity=Decimal(2), unit_price=Decimal("9.99"), note="Own drum.")},
    own_lines=(OwnLine(description="Transport", quantity=Decimal(3), unit_price=Decimal("33.33")),),
    discount_pct=Decimal("7.5"),
    discount_reason="Season's order.",
)


def spring(value: str) -> Reading:
    """The free length of a valve spring: 39 as new, 38 at its limit."""
    return Reading.model_validate(
        {
            "component": "valve_spring",
            "quantity": "free length",
            "value": value,
            "unit": "mm",
            "standard": "39.0",
            "limit": "38.0",
            "bad_when": "below",
        }
    )


ENGINES: dict[str, Request] = {
    "endurance four": tired_four(loss=Decimal(3000), edits={"refresh": BY_HAND, "full": BY_HAND}),
    "motocross single": tired_single(),
    "sprint twin on a full tune": asked(
        "twin650",
        ran(800, tier="full", **{"from": "2026-03-01", "to": "2026-06-01"}),
        ran(400, duty="track_day", tier="full", **{"from": "2026-08-01", "to": "2026-10-01"}),
        amount=900,
        duty="sprint",
        engine={"renewed": {"clutch_friction": {"at": "500", "unit": "mi"}}},
        stripped=True,
        readings=(spring("38.7"),),
        checks="each_season",
    ),
}


@lru_cache
def told(engine: str, **rules: Any) -> tuple[Explained, ...]:
    """Every tier of an engine, opened."""
    request, shop = ENGINES[engine], replace(SHOP, **rules)
    catalogue = shipped(request.engine.type)
    found = compare(request, catalogue, shop)
    return tuple(explain(request, catalogue, shop, option) for option in found.options)


def tier(engine: str, code: str, **rules: Any) -> Explained:
    return next(each for each in told(engine, **rules) if each.option.tier == code)


@lru_cache
def left(engine: str) -> LeftAlone:
    """The engine left as it is, opened."""
    request = ENGINES[engine]
    catalogue = shipped(request.engine.type)
    return explain_left(request, catalogue, SHOP, compare(request, catalogue, SHOP).leave_it)


def exact(figure: Origin) -> float:
    assert figure.exact is not None, figure.title
    return float(figure.exact)
