"""Sets of parts that were seen, all invented."""

from __future__ import annotations

from datetime import date
from typing import Any

from quotes.calc.learning.law import LifeLaw, law_from
from quotes.calc.learning.proposal import About
from quotes.calc.learning.seen import SetSeen
from quotes.calc.life.wear import characteristic_life

ON = date(2026, 11, 1)
SPRINGS = About("valve_spring", "valve springs", "miles")


def law(life: float = 4500.0, shape: float = 3.0, evidence: float = 2.0, quantile: float = 0.10) -> LifeLaw:
    """A catalogue law: by 4,500 miles one set in ten has failed."""
    eta = characteristic_life(life, quantile, shape)
    return law_from(eta, shape, evidence, quantile, eta, eta)


def seen(left: float, outcome: str = "sound", **change: Any) -> SetSeen:
    """One set at an age in reference miles."""
    key = change.pop("key", f"{outcome} {left:g} {change.get('entry', 0):g}")
    told: dict[str, Any] = {
        "teardown": f"job:{key}",
        "engine": "H4-20417",
        "engine_type": "four600",
        "duty": "sprint",
        "tier": "refresh",
        "entry": 0.0,
        "seen_good": None,
        "on": ON,
        "recorded": f"{left:g} miles",
    }
    return SetSeen(key=key, outcome=outcome, left=left, **{**told, **change})  # type: ignore[arg-type]


def sound(*ages: float) -> list[SetSeen]:
    return [seen(age, key=f"sound {place}") for place, age in enumerate(ages)]


def failed(*ages: float) -> list[SetSeen]:
    return [seen(age, "failed", key=f"failed {place}") for place, age in enumerate(ages)]
