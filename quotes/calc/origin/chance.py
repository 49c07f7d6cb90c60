"""The chance of finishing opened to its hazards, and the chance of a locked wheel to its parts."""

from __future__ import annotations

import math

from quotes.calc.life.draws import DUTY_SIGMA, HIGH, LOW, PARTS_PER_SEASON, SEASONS
from quotes.calc.life.horizon import rider_wears
from quotes.calc.life.wear import Wear
from quotes.calc.origin.values import Origin, hazard, number
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.words import chance_in_words, percent_band, risk_in_words, whole_percent

NAMED = 10
"""How many components are named; the rest are added up and listed beneath."""
ADDS_UP = (
    "Hazards add up, part by part and service by service. The chance is e to the minus their sum: "
    "a hazard of 0.05 leaves 95 in 100."
)


def chance(told: Explained) -> Origin:
    """The chance that the engine does not stop the planned service."""
    shown = told.option.chance
    mean = told.measures.chance
    parts = _by_component(told)
    known = math.fsum(float(part.exact or 0.0) for part in parts)
    season = -math.log(mean) - known
    return Origin(
        title="Chance of finishing the planned service",
        value=f"{chance_in_words(mean)}, {whole_percent(mean)}",
        rule=f"{ADDS_UP} Here they come to {-math.log(mean):.4f}.",
        parts=(
            *parts,
            Origin(
                "The season itself",
                hazard(season),
                f"A season turns out harder or easier than planned (lognormal, sigma {DUTY_SIGMA:g}, from "
                f"memory). The chance shown is the mean over {SEASONS} seasons, each as likely as the other; "
                "this is what that mean differs by from the season as planned.",
                exact=season,
            ),
            Origin(
                "The band",
                percent_band(shown.low, shown.high),
                f"{SEASONS * PARTS_PER_SEASON:,} draws of how good each part is and how hard the season: "
                f"{round(10 * (HIGH - LOW))} in 10 of them lie between these two.",
            ),
        ),
        adds="hazard",
        exact=mean,
        key="chance",
    )


def _by_component(told: Explained) -> list[Origin]:
    """Hazards by component, the largest first, then the shop factor and our own faults."""
    wears = told.measures.wears
    use, factor = told.case.use, told.shop.shop_factor
    ranked = sorted(wears, key=lambda code: (-wears[code].stopping_hazard(use), code))
    named = [component_hazard(told, code, wears[code]) for code in ranked[:NAMED]]
    rest = [component_hazard(told, code, wears[code]) for code in ranked[NAMED:]]
    together = math.fsum(float(part.exact or 0.0) for part in rest)
    found = [*named]
    if rest:
        found.append(
            Origin(
                f"{len(rest)} other components",
                hazard(together),
                parts=tuple(rest),
                adds="sum",
                exact=together,
            )
        )
    scaled = math.fsum(
        scaled_hazard(wear, use, factor) - wear.stopping_hazard(use) for wear in wears.values()
    )
    return [*found, _shop_factor(factor, scaled), _faults(told)]


def scaled_hazard(wear: Wear, use: float, factor: float) -> float:
    """Its stopping hazard with the shop factor inside, as the mean counts it: `a0 ln(1 + f s D / b)`."""
    return wear.evidence * math.log1p(factor * wear.stopping * wear.damage(use) / wear.prior_scale)


def component_hazard(told: Explained, code: str, wear: Wear) -> Origin:
    """One component's share; it opens by itself under its key."""
    amount = wear.stopping_hazard(told.case.use)
    name = told.catalogue.components[code].name
    return Origin(name, hazard(amount), exact=amount, key=f"component:{code}")


def _shop_factor(factor: float, more: float) -> Origin:
    said = "which changes nothing" if factor == 1.0 else "which scales every hazard above"
    return Origin(
        f"Shop factor {number(factor, 3)}",
        hazard(more),
        f"The owner's factor for the workshop's own record is {number(factor, 3)}, {said}.",
        "the workshop's settings",
        exact=more,
    )


def _faults(told: Explained) -> Origin:
    count, each = told.measures.faults, told.shop.assembly_fault_chance
    return Origin(
        "Our own hands: faults in assembly",
        hazard(told.measures.fault_hazard),
        f"{count} assembly operations, each with a hazard of {each:g}.",
        "the workshop's settings; from memory",
        exact=told.measures.fault_hazard,
    )


def wheel_lock(told: Explained) -> Origin:
    """The chance that a part which can lock the wheel or oil the tyre stops the engine."""
    shown, use, factor = told.option.wheel_lock, told.case.use, told.shop.shop_factor
    riders = rider_wears(told.measures.wears, told.catalogue)
    ranked = sorted(riders, key=lambda code: (-riders[code].stopping_hazard(use), code))
    parts = tuple(
        Origin(
            told.catalogue.components[code].name,
            hazard(factor * riders[code].stopping_hazard(use)),
            exact=factor * riders[code].stopping_hazard(use),
            key=f"component:{code}",
        )
        for code in ranked
    )
    spared = math.exp(-math.fsum(float(part.exact or 0.0) for part in parts))
    return Origin(
        "Locked rear wheel, or oil on the tyre",
        f"{risk_in_words(100 * shown.value)}; ceiling {whole_percent(shown.ceiling)}",
        "The hazards of the parts that can do it, times the shop factor, added up; the chance is one less "
        "e to the minus their sum. Faults of our own and the spread of seasons stay out.",
        "ceiling: the workshop's settings",
        parts=(
            Origin("Chance to be spared", whole_percent(spared), parts=parts, adds="hazard", exact=spared),
        ),
        exact=shown.value,
        key="wheel_lock",
    )
