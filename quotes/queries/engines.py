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
    """The engine by its own record. Fetch it with `Engine.objects.with_history()` to save queries.

    What parts brought of their own is not in its record: `queries.bench.ages.after.engine_now` has that too.
    """
    return EngineAsked(
        type=engine.type_code,
        delivered=cast(Delivered, str(engine.delivered)),
        fitted=engine.fitted or None,
        history=stretches_of(engine) if engine.history_known else None,
        renewed={
            part.component: Renewal(at=part.at, unit=cast(Unit, part.unit), on=part.on)
            for part in engine.renewed_parts.all()
        },
        build_cycles=engine.build_cycles,
    )


def stretches_of(engine: Engine) -> tuple[Segment, ...]:
    """What an engine has run, as it stands in its record."""
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
