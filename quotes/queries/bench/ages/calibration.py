"""What was expected and what was seen, by tier and duty, and the factor that it suggests."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.queries import duty_choices, tier_choices
from quotes.calc.life.calibration import Record, SuggestedFactor, by_tier_and_duty, record_of, suggested
from quotes.models import Acceptance, ServiceEnd, ServiceOutcome, ShopFactorChange, Workshop
from quotes.queries.bench.ages.outcomes import MOST, untold, watched_of

SHOWN = 15
"""So many services are listed, the latest told first."""


@dataclass(frozen=True, slots=True)
class CalibrationRow:
    """One tier in one use, by their names."""

    tier: str
    duty: str
    record: Record


@dataclass(frozen=True, slots=True)
class Calibration:
    """The whole record. `factor` is the one that stands."""

    factor: Decimal
    whole: Record
    rows: tuple[CalibrationRow, ...]
    suggested: SuggestedFactor
    unknown: int
    """Services of which nobody knows; they count nowhere."""
    outside: int
    """Stopped by what no estimate counts; they count as far as they ran."""
    stopped_by: tuple[tuple[str, int], ...]
    """Codes of components with how often each stopped an engine, the most first."""
    told: tuple[ServiceOutcome, ...]
    told_count: int
    untold: tuple[Acceptance, ...]
    untold_count: int
    changes: tuple[ShopFactorChange, ...]

    @property
    def offered(self) -> Decimal:
        """The suggested factor as it is set: to a hundredth."""
        return round_half_up(Decimal(str(self.suggested.factor)), 2)

    @property
    def in_short(self) -> dict[str, float | int]:
        """What a change of the factor is signed on."""
        return {
            "services": self.whole.services,
            "expected": round(self.whole.promised, 3),
            "seen": self.whole.seen,
            "suggested": round(self.suggested.factor, 3),
            "low": round(self.suggested.low, 3),
            "high": round(self.suggested.high, 3),
        }


def calibration() -> Calibration:
    """The record as it stands, in a number of queries that does not grow with it."""
    standing = ServiceOutcome.objects.standing().select_related("build__quote__engine", "by")
    rows = list(standing.defer("build__quote__request").order_by("-on", "-pk"))
    known = [row for row in rows if row.end != ServiceEnd.UNKNOWN]
    watched = [watched_of(row) for row in known]
    tiers, duties = dict(tier_choices()), dict(duty_choices())
    waiting = untold()
    causes = Counter(row.stopped_by for row, one in zip(known, watched, strict=True) if one.stopped)
    return Calibration(
        factor=Workshop.objects.get_or_default().shop_factor,
        whole=record_of(watched),
        rows=tuple(
            CalibrationRow(tiers.get(tier, tier), duties.get(duty, duty), record)
            for (tier, duty), record in sorted(by_tier_and_duty(watched).items())
        ),
        suggested=suggested(watched),
        unknown=len(rows) - len(known),
        outside=sum(row.end == ServiceEnd.OUTSIDE for row in known),
        stopped_by=tuple(causes.most_common()),
        told=tuple(rows[:SHOWN]),
        told_count=len(rows),
        untold=tuple(waiting[:MOST]),
        untold_count=waiting.count(),
        changes=tuple(ShopFactorChange.objects.select_related("by", "takes_back")),
    )
