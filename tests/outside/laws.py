"""What a Weibull life says of one part: means, chances, lives at other shares, damage that adds up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from scipy.integrate import quad

from catalogue.calc.engine import Duty, EngineCatalogue, Life
from quotes.calc.ask.request import EngineAsked, Planned, Request, Segment
from quotes.calc.life.clock import used_shares
from quotes.calc.life.wear import Wear, characteristic_life
from tests.calc.small import catalogue, component, tier
from tests.outside.check import OutsideCheck

WELL_KNOWN = 1e12
"""Evidence so strong that the gamma prior is a point: the plain Weibull law."""
FAR = 12.0
"""Characteristic lives that nothing outlives, for a shape above 1."""
HANDBOOK = "NIST/SEMATECH e-Handbook 8.4.1.3"
NELSON = "Nelson, Applied Life Data Analysis (1982), pp. 69-70, transformer windings"
MINER = "Modarres, Amiri and Jackson, Probabilistic Physics of Failure (2017), pp. 33-37"
ON = date(2027, 2, 1)


def plain(age: float, eta: float, shape: float) -> Wear:
    """A Weibull life known for certain, every failure stopping the engine."""
    return Wear(age=age, rate=1.0, eta=eta, shape=shape, evidence=WELL_KNOWN, stopping=1.0, life=eta)


def reliability(wear: Wear, use: float) -> float:
    return math.exp(-wear.stopping_hazard(use))


def moment(wear: Wear, power: int) -> float:
    """Mean of the life that is left, to a power, by quadrature over our own hazard."""
    found, _ = quad(
        lambda use: power * use ** (power - 1) * reliability(wear, use),
        0.0,
        FAR * wear.eta,
        epsabs=1e-10,
        epsrel=1e-10,
        limit=200,
    )
    return float(found)


def mean(eta: float, shape: float) -> tuple[float]:
    return (moment(plain(0.0, eta, shape), 1),)


def deviation(eta: float, shape: float) -> tuple[float]:
    wear = plain(0.0, eta, shape)
    return (math.sqrt(moment(wear, 2) - moment(wear, 1) ** 2),)


def share_and_density(age: float, eta: float, shape: float) -> tuple[float, float]:
    """Share failed by an age, and ten thousand times its density there, from two shares close by."""
    wear = plain(0.0, eta, shape)
    before, after = (reliability(wear, age + step) for step in (-0.5, 0.5))
    return 1.0 - reliability(wear, age), 1e4 * (before - after)


def mean_left(age: float, eta: float, shape: float) -> tuple[float]:
    return (moment(plain(age, eta, shape), 1),)


def goes_on(age: float, more: float, eta: float, shape: float) -> tuple[float]:
    return (reliability(plain(age, eta, shape), more),)


def lives_at(reliabilities: Sequence[float], shape: float) -> tuple[float, ...]:
    """Life at other reliabilities, where the life at 90 % is 1."""
    eta = characteristic_life(1.0, 0.10, shape)
    return tuple(eta * (-math.log(each)) ** (1.0 / shape) for each in reliabilities)


def loaded(lives: Sequence[float]) -> EngineCatalogue:
    """One part worn by gas alone, in a duty for each of these lives: the first is its own."""
    part = component("shaft", lives={"miles": Life(lives[0], 1.0, 1e6)}, drivers={"gas": 1.0})
    duties = {
        f"load_{place}": Duty(
            code=f"load_{place}",
            name=f"Load {place}",
            basis="miles",
            severity={"gas": lives[0] / life},
            event_miles=None,
            event_hours=1.0,
            season_events=1,
            season_miles=None,
            season_hours=1.0,
        )
        for place, life in enumerate(lives)
    }
    return replace(catalogue(part, tier()), duties=duties)


def used(lives: Sequence[float], cycles: Sequence[str]) -> float:
    """Share of its life that our damage clock has the part used after so many cycles of each load."""
    history = tuple(
        Segment(amount=Decimal(amount), unit="mi", duty=f"load_{place}")
        for place, amount in enumerate(cycles)
        if Decimal(amount)
    )
    engine = EngineAsked(type="bench", history=history)
    asked = Request(on=ON, engine=engine, planned=Planned(duty="load_0"))
    return used_shares(asked, loaded(lives))["shaft"].share


def cycles_to_failure(lives: Sequence[float], cycles: Sequence[str]) -> tuple[float]:
    return (sum(float(amount) for amount in cycles) / used(lives, cycles),)


def shares_of_damage(lives: Sequence[float], cycles: Sequence[str]) -> tuple[float, ...]:
    """Per cent of the damage that each load does."""
    whole = used(lives, cycles)
    alone = [["0"] * place + [amount] for place, amount in enumerate(cycles)]
    return tuple(100.0 * used(lives, each) / whole for each in alone)


LOADS = ((50_000.0, 6_500.0, 1_000.0), ("8000", "3000", "1000"))
"""Rated lives, and two thirds, a quarter and a twelfth of 12,000 cycles."""

CHECKS = (
    OutsideCheck(
        "mean life, shape 1.7208, life 606.528",
        mean,
        (606.528, 1.7208),
        (540.737,),
        (5e-3,),
        HANDBOOK,
        "published, read",
    ),
    OutsideCheck(
        "standard deviation of the same",
        deviation,
        (606.528, 1.7208),
        (323.806,),
        (5e-3,),
        HANDBOOK,
        "published, read",
    ),
    OutsideCheck(
        "F(1000) and f(1000) x 10,000, shape 1.5, life 5000",
        share_and_density,
        (1000.0, 5000.0, 1.5),
        (0.0856, 1.23),
        (5e-5, 5e-3),
        "NIST/SEMATECH e-Handbook 8.1.6.2",
        "published, value from memory",
    ),
    OutsideCheck(
        "mean life left at age 6.5, shape 2, life 13",
        mean_left,
        (6.5, 13.0, 2.0),
        (7.1,),
        (0.05,),
        NELSON,
        "published, read",
    ),
    OutsideCheck(
        "chance to reach 13 given 6.5",
        goes_on,
        (6.5, 6.5, 13.0, 2.0),
        (0.47236655,),
        (1e-7,),
        f"{NELSON}: question read, exp(-(1 - 0.25)) worked out",
        "arithmetic",
    ),
    OutsideCheck(
        "life factor a1 at 95 to 99 %",
        lives_at,
        ((0.95, 0.96, 0.97, 0.98, 0.99), 1.5),
        (0.62, 0.53, 0.44, 0.33, 0.21),
        (6e-3,) * 5,
        "ISO 281:1990, table of a1; reprinted in a bearing maker's catalogue",
        "published, read",
    ),
    OutsideCheck(
        "cycles to failure under three loads",
        cycles_to_failure,
        LOADS,
        (7400.37951,),
        (1e-4,),
        MINER,
        "published, read",
    ),
    OutsideCheck(
        "per cent of the damage by load",
        shares_of_damage,
        LOADS,
        (9.86717, 28.463, 61.66983),
        (1e-4,) * 3,
        MINER,
        "published, read",
    ),
)
