"""What another factor would do to the three standard quotes, with the workshop as it stands."""

from __future__ import annotations

from datetime import date

from quotes.calc.bench.ages.factor_effect import FactorEffect, factor_effects
from quotes.queries import comparison
from quotes.queries.engines import known_catalogue
from quotes.queries.workshop import shop_rules


def effects_of_factor(on: date, factor: float) -> tuple[FactorEffect, ...]:
    """The standard quotes under the factor that stands and under another one."""
    return factor_effects(known_catalogue, shop_rules(on), factor, on, comparison.compare)
