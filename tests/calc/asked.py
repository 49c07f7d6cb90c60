"""Requests that the calculation tests ask: an engine that came in used, and a season."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from quotes.calc.ask.request import EngineAsked, Planned, Request, Segment

ON = date(2027, 2, 1)


def ran(amount: float, unit: str = "mi", duty: str = "sprint", tier: str = "refresh", **more: Any) -> Segment:
    """A stretch of past service."""
    fields = {"amount": Decimal(str(amount)), "unit": unit, "duty": duty, "tier": tier, **more}
    return Segment.model_validate(fields)


def asked(
    engine_type: str = "four600",
    *history: Segment,
    amount: float | None = 2000,
    unit: str | None = "mi",
    duty: str = "endurance",
    engine: dict[str, Any] | None = None,
    planned: dict[str, Any] | None = None,
    **more: Any,
) -> Request:
    """A request: a 600 inline four and 2,000 endurance miles unless it is said otherwise."""
    past: dict[str, Any] = {"type": engine_type, "history": history, **(engine or {})}
    season = {"duty": duty, "amount": None if amount is None else Decimal(str(amount)), "unit": unit}
    return Request(
        on=ON,
        engine=EngineAsked.model_validate(past),
        planned=Planned.model_validate({**season, **(planned or {})}),
        **more,
    )


def tired_four(**more: Any) -> Request:
    """The 600 inline four that came at 4,000 sprint miles."""
    return asked("four600", ran(4000), **more)


def tired_single(**more: Any) -> Request:
    """The 450 single that came at 38 motocross hours."""
    season: dict[str, Any] = {"amount": 25, "unit": "h", "duty": "motocross", **more}
    return asked("single450", ran(38, "h", "motocross"), **season)
