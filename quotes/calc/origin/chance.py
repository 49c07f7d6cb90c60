"""The chance of finishing opened to its hazards, and the chance of a locked wheel to its parts."""

from __future__ import annotations

import math

from quotes.calc.life.course import AS_PLANNED
from quotes.calc.life.draws import DUTY_SIGMA, HIGH, LOW, PARTS_PER_SEASON, SEASONS
from quotes.calc.life.horizon import rider_wears
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
    mean = told.driven.chance
    as_planned = told.driven.drive.course.means(AS_PLANNED)[-1]
    season = math.log(as_planned / mean)
    parts = _by_component(told, -math.log(as_planned))
    return Origin(
        title="Chance of finishing the planned service",
        value=f"{chance_in_words(mean)}, {whole_percent(mean)}",
        rule=f"{ADDS_UP} Here they come to {-math.log(mean):.4f}.",
        parts=(
            *parts,
            _season(season),
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


def _season(amount: float) -> Origin:
    return Origin(
        "The season itself",
        hazard(amount),
        f"A season turns out harder or easier than planned (lognormal, sigma {DUTY_SIGMA:g}, from memory). "
        f"The chance shown is the mean over {SEASONS} seasons, each as likely as the other; this is what it "
        "differs by from a season just as hard as planned.",
        exact=amount,
    )


def _by_component(told: Explained, planned: float) -> list[Origin]:
    """Hazards by component, the largest first, then the shop factor and our own faults.

    `planned` is the hazard in all of a season just as hard as planned. The factor works inside the logarithm
    of each, so what it adds is what is left of that.
    """
    hazards, factor = told.hazards, told.shop.shop_factor
    ranked = sorted(hazards, key=lambda code: (-hazards[code], code))
    found = [component_hazard(told, code) for code in ranked[:NAMED]]
    rest = [component_hazard(told, code) for code in ranked[NAMED:]]
    together = math.fsum(float(part.exact or 0.0) for part in rest)
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
    faults = _faults(told)
    scaled = 0.0 if factor == 1.0 else planned - float(faults.exact or 0.0) - math.fsum(hazards.values())
    return [*found, _shop_factor(factor, scaled), faults]


def component_hazard(told: Explained, code: str) -> Origin:
    """One component's share; it opens by itself under its key."""
    amount, name = told.hazards[code], told.catalogue.components[code].name
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
    count, each = told.driven.faults_in_all, told.shop.assembly_fault_chance
    return Origin(
        "Our own hands: faults in assembly",
        hazard(count * each),
        f"{count} assembly operations, each with a hazard of {each:g}.",
        "the workshop's settings; from memory",
        exact=count * each,
    )


def wheel_lock(told: Explained) -> Origin:
    """The chance that a part which can lock the wheel or oil the tyre stops the engine."""
    shown = told.option.wheel_lock
    held = told.driven.drive.held
    worst = max(range(len(held)), key=lambda number: held[number])
    parts = _riders(told, worst)
    spared = math.exp(-math.fsum(float(part.exact or 0.0) for part in parts))
    stretch = f"In service {worst + 1}, the worst between openings: the" if len(held) > 1 else "The"
    return Origin(
        "Locked rear wheel, or oil on the tyre",
        f"{risk_in_words(100 * shown.value)}; ceiling {whole_percent(shown.ceiling)}",
        f"{stretch} hazards of the parts that can do it, times the shop factor, added up; the chance is one "
        "less e to the minus their sum. Faults of our own and the spread of seasons stay out.",
        "ceiling: the workshop's settings",
        parts=(
            Origin("Chance to be spared", whole_percent(spared), parts=parts, adds="hazard", exact=spared),
        ),
        exact=shown.value,
        key="wheel_lock",
    )


def _riders(told: Explained, service: int) -> tuple[Origin, ...]:
    """Their hazards in one service, the largest first."""
    if len(told.steps) > 1:
        step = told.steps[service]
        fitted, use = step.scope.plan.fitted(step.scope.case), step.use
    else:
        fitted, use = told.scope.plan.fitted(told.case), told.case.use
    riders = rider_wears({code: each.wear for code, each in fitted.items()}, told.catalogue)
    amounts = {code: told.shop.shop_factor * wear.stopping_hazard(use) for code, wear in riders.items()}
    return tuple(
        Origin(
            told.catalogue.components[code].name,
            hazard(amounts[code]),
            exact=amounts[code],
            key=f"component:{code}",
        )
        for code in sorted(amounts, key=lambda code: (-amounts[code], code))
    )
