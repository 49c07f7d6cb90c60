"""Values of the sheet: a planned service that takes openings, as the sequence of services between them."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Self

from pydantic import model_validator

from quotes.calc.ask.request import Value
from quotes.calc.sheet.base_values import Likely, Ready, Service, Spread


class SeasonService(Value):
    """One stretch of the season: what is done before it, how long it is, what that costs and gives."""

    number: int
    begins: Service
    """Of the planned service, where it begins; 0 for the first."""
    length: Service
    done: str
    """The work before it in words: the build, a top end, ..."""
    renewed: dict[str, str]
    """Components that are new when it begins, with their names."""
    reconditioned: dict[str, str]
    operations: tuple[str, ...]
    """In the order of the catalogue."""
    hours: Decimal
    net: Spread
    tax: Spread
    gross: Spread
    chance: Likely
    """Of running through it, for an engine that has reached it."""
    wheel_lock: float
    """Chance that a part which can lock the wheel or oil the tyre fails in it and stops the engine."""
    good_for: Service
    good_for_reason: str
    opened_on: date
    """The day on which the engine is there for the work: the quote's own, or where even use brings it."""
    ready: Ready

    @model_validator(mode="after")
    def sums_agree(self) -> Self:
        _refuse_unless_gross(self.net, self.tax, self.gross, f"service {self.number}")
        return self


class SeasonPlan(Value):
    """The planned service with the engine opened on the way: its services in order, and what they come to."""

    services: tuple[SeasonService, ...]
    net: Spread
    tax: Spread
    gross: Spread
    hours: Decimal
    chance: Likely
    """Of the whole planned service, the openings made."""
    run_through: Likely
    """Of the whole planned service on the first build alone, never opened."""
    wheel_lock: Likely
    """Over the whole planned service; the ceiling holds for each stretch between openings."""
    per_season: float
    """The chance for one season of the duty, where the planned service is another length."""
    cost_per_season: Decimal
    cost_per_unit: Decimal
    begins_on: date
    """The day from which use is spread evenly over the duty's year."""
    sentence: str

    @model_validator(mode="after")
    def sums_agree(self) -> Self:
        _refuse_unless_gross(self.net, self.tax, self.gross, "the season")
        for which in ("low", "typical", "high"):
            for sums in ("net", "tax", "gross"):
                whole = getattr(getattr(self, sums), which)
                if whole != sum(getattr(getattr(each, sums), which) for each in self.services):
                    raise ValueError(f"the services do not add up to {which} {sums} {whole}")
        return self

    @property
    def openings(self) -> tuple[SeasonService, ...]:
        """The services that begin with an opening: all but the first."""
        return self.services[1:]


def _refuse_unless_gross(net: Spread, tax: Spread, gross: Spread, of: str) -> None:
    for which in ("low", "typical", "high"):
        parts = tuple(getattr(part, which) for part in (net, tax, gross))
        if parts[0] + parts[1] != parts[2]:
            raise ValueError(f"{of}: {which} net {parts[0]} + tax {parts[1]} is not gross {parts[2]}")
