"""All that is made of life data, as one answer: the fit, its bounds, and the life for a given shape."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from quotes.calc.ask.fault import BadRequest
from quotes.calc.life.bounds import Bounds, likelihood_bounds
from quotes.calc.life.fit import Fit, fit
from quotes.calc.life.life_data import LifeAsked
from quotes.calc.life.one_parameter import OneParameter, fit_eta

NO_BOUND = {
    "beta_low": "no bound: every lesser shape fits nearly as well",
    "beta_high": "no bound: every greater shape fits nearly as well",
    "eta_low": "no bound: every shorter life fits nearly as well",
    "eta_high": "no bound: every longer life fits nearly as well",
}


@dataclass(frozen=True, slots=True)
class FitAnswer:
    """The two-parameter fit with its bounds, and the one-parameter estimate where the shape was given."""

    items: int
    failed: int
    confidence: float
    two: Fit | None
    bounds: Bounds | None
    one: OneParameter | None
    notes: tuple[str, ...]

    def as_json(self) -> dict[str, Any]:
        """Every figure by its name; null where there is none, and a note says why."""
        two = asdict(self.two) if self.two else dict.fromkeys(("beta", "eta", "log_likelihood"))
        bounds = asdict(self.bounds) if self.bounds else dict.fromkeys(NO_BOUND)
        return {
            "items": self.items,
            "failed": self.failed,
            **two,
            **bounds,
            "confidence": self.confidence,
            "one_parameter": asdict(self.one) if self.one else None,
            "notes": list(self.notes),
        }


def answer(asked: LifeAsked) -> FitAnswer:
    """Fits what was asked. Raises BadRequest where neither fit can be made."""
    one = fit_eta(asked, asked.beta, asked.confidence) if asked.beta is not None else None
    two: Fit | None = None
    bounds: Bounds | None = None
    notes: tuple[str, ...] = ()
    try:
        two = fit(asked)
    except BadRequest as error:
        if one is None:
            raise
        notes = tuple(f"beta and eta can't be fitted together: {fault}" for fault in error.faults)
    else:
        bounds = likelihood_bounds(asked, two, asked.confidence)
        notes = tuple(f"{name}: {why}" for name, why in NO_BOUND.items() if getattr(bounds, name) is None)
    if one is not None and one.eta is None:
        notes += (f"one_parameter: no failure: eta_low alone, one-sided at {asked.confidence:g}",)
    return FitAnswer(len(asked.last_good), asked.failed, asked.confidence, two, bounds, one, notes)
