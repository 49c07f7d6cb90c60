"""Engines as the sums know them."""

from __future__ import annotations

from typing import cast

from catalogue.calc.engine import EngineCatalogue
from catalogue.queries import engine_catalogue
from quotes.calc.ask.request import Delivered, EngineAsked, Renewal, Segment, Unit
from quotes.models import Engine


def known_catalogue(type_code: str) -> EngineCatalogue | None:
    """The catalogue of an engine type, or None where the catalogue has it no more."""
    try:
        return engine_catalogue(type_code)
    except LookupError:
        return None


def engine_asked(engine: Engine) -> EngineAsked:
    """The engine with its history. Fetch it with `Engine.objects.with_history()` to save queries."""
    return EngineAsked(
        type=engine.type_code,
        delivered=cast(Delivered, str(engine.delivered)),
        fitted=engine.fitted or None,
        history=_history(engine) if engine.history_known else None,
        renewed={
            part.component: Renewal(at=part.at, unit=cast(Unit, part.unit), on=part.on)
            for part in engine.renewed_parts.all()
        },
        build_cycles=engine.build_cycles,
    )


def _history(engine: Engine) -> tuple[Segment, ...]:
    return tuple(
        Segment(
            amount=row.amount,
            unit=cast(Unit, row.unit),
            duty=row.duty,
            tier=row.tier,
            start=row.start,
            end=row.end,
        )
        for row in engine.segments.all()
    )
