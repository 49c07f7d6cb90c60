"""How the hazard of a plan is spread over its planned service."""

from __future__ import annotations

import math

from quotes.calc.life.horizon import total_stopping
from quotes.calc.sheet.exposure_values import PARTS, Exposure
from quotes.calc.sheet.measures import Measures


def exposure_of(measures: Measures) -> Exposure:
    """The hazards behind the chance; their course over the service is that of the mean lives."""
    wears, use = measures.wears, measures.case.use
    course = [total_stopping(wears, use * part / PARTS) for part in range(1, PARTS + 1)]
    whole = course[-1] or 1.0
    return Exposure(
        by_wear=max(0.0, -math.log(measures.chance) - measures.fault_hazard),
        by_hands=measures.fault_hazard,
        reached=tuple(round(each / whole, 4) for each in course),
    )
