"""Lives from few failures or none, and how sure a prior is of them."""

from __future__ import annotations

import math

from scipy.optimize import brentq

from quotes.calc.life.experience import LearntLife
from quotes.calc.life.life_data import LifeData
from quotes.calc.life.one_parameter import fit_eta
from tests.outside.check import OutsideCheck

FOUR = (100.0, 200.0, 300.0, 400.0)
ABERNETHY = "Abernethy, New Weibull Handbook, chapter 6"
SUCCESS_RUN = "success-run theorem (Nelson 1982; Abernethy, chapter 6)"
PRIOR = "NIST/SEMATECH e-Handbook 8.2.5, 50/95 prior"


def items_without_failure(reliability: float, confidence: float) -> tuple[float]:
    """The fewest items that have to run without failure to show a reliability."""

    def shown(count: int) -> float:
        low = fit_eta(LifeData(suspensions=(100.0,) * count), 2.0, confidence).eta_low
        return math.exp(-((100.0 / low) ** 2.0))

    few, many = 0, 10_000
    while many - few > 1:
        middle = (few + many) // 2
        few, many = (few, middle) if shown(middle) >= reliability else (middle, many)
    return (float(many),)


def factors_of_mean_life(confidence: float) -> tuple[float, float]:
    """Bounds after two failures over the estimate, at shape 1."""
    data = LifeData(failures=(300.0, 700.0), suspensions=(1000.0,) * 4)
    found = fit_eta(data, 1.0, confidence)
    assert found.eta is not None
    assert found.eta_high is not None
    return found.eta_low / found.eta, found.eta_high / found.eta


def one_failed_of_four(shape: float) -> tuple[float]:
    found = fit_eta(LifeData(failures=FOUR[:1], suspensions=FOUR[1:]), shape, 0.9)
    return (found.eta or math.nan,)


def none_failed_of_four(shape: float, confidence: float) -> tuple[float]:
    return (fit_eta(LifeData(suspensions=FOUR), shape, confidence).eta_low,)


def gamma(evidence: float, rate: float) -> LearntLife:
    """A life at shape 1 that is known as a gamma on its hazard says."""
    return LearntLife(rate / evidence, 1.0, evidence, catalogue_weight=1.0, shop_weight=0.0)


def prior_of(half: float, twentieth: float) -> tuple[float, float]:
    """The gamma whose true life falls short of these once in two, and once in twenty."""

    def ratio(evidence: float) -> float:
        life = gamma(evidence, 1.0)
        return life.eta_at(0.50) / life.eta_at(0.05) - half / twentieth

    evidence = float(brentq(ratio, 0.5, 50.0, xtol=1e-12))
    return evidence, half / gamma(evidence, 1.0).eta_at(0.50)


def chances_of_hazard(evidence: float, rate: float, hazards: tuple[float, ...]) -> tuple[float, ...]:
    """Chance that the hazard is below each of these."""
    life = gamma(evidence, rate)

    def chance(hazard: float) -> float:
        return 1.0 - float(
            brentq(lambda share: life.eta_at(share) * hazard - 1.0, 1e-9, 1 - 1e-9, xtol=1e-14)
        )

    return tuple(chance(hazard) for hazard in hazards)


CHECKS = (
    OutsideCheck(
        "items to show 99.9 % at 95 %",
        items_without_failure,
        (0.999, 0.95),
        (2995.0,),
        (0.5,),
        SUCCESS_RUN,
        "published, value from memory",
    ),
    OutsideCheck(
        "items to show 90 % at 90 %",
        items_without_failure,
        (0.90, 0.90),
        (22.0,),
        (0.5,),
        f"{SUCCESS_RUN}; MIL-HDBK-338B",
        "published, value from memory",
    ),
    OutsideCheck(
        "items to show 95 % at 95 %",
        items_without_failure,
        (0.95, 0.95),
        (59.0,),
        (0.5,),
        f"{SUCCESS_RUN}; MIL-HDBK-338B",
        "published, value from memory",
    ),
    OutsideCheck(
        "90 % factors of mean life after two failures",
        factors_of_mean_life,
        (0.90,),
        (0.3177, 5.6281),
        (5e-5, 5e-5),
        "NIST/SEMATECH e-Handbook 8.4.5.1; formula read",
        "published, value from memory",
    ),
    OutsideCheck(
        "Weibayes, one failed of four",
        one_failed_of_four,
        (2.0,),
        (547.722558,),
        (1e-5,),
        f"{ABERNETHY}; IEC 61649:2008, clause 9: definition",
        "arithmetic",
    ),
    OutsideCheck(
        "Weibayes, none failed of four, at 63.2 %",
        none_failed_of_four,
        (2.0, 1.0 - math.exp(-1.0)),
        (547.722558,),
        (1e-5,),
        ABERNETHY,
        "published, value from memory",
    ),
    OutsideCheck(
        "gamma prior of lives 600 and 250",
        prior_of,
        (600.0, 250.0),
        (2.863055, 1522.506),
        (2e-6, 1e-3),
        PRIOR,
        "published, read",
    ),
    OutsideCheck(
        "chances of hazards under that prior",
        chances_of_hazard,
        (2.863, 1522.46, (0.001667, 0.004)),
        (0.5001232, 0.9499963),
        (1e-6, 1e-6),
        f"{PRIOR}, its check",
        "published, read",
    ),
)
