"""Loads and tune of one engine type in one tier, in rows of words, the trade's factors beside geometry's."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue, EngineType, Tier
from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.tune.beside_trade import FactorsBeside, beside_trade
from quotes.calc.tune.gas import (
    PASCALS_PER_BAR,
    bmep_pa,
    compression_gain_at_most_pct,
    fuel_kg_per_h,
    torque_nm,
)
from quotes.calc.tune.loads import Loads, Tuned, loads_of, tuned, tuned_by
from quotes.calc.tune.power import WATTS_PER_HP, WATTS_PER_KW, Watts, gained
from quotes.documents.words import NO_BREAK, listed

MINUS = "\N{MINUS SIGN}"
LEAST_SAID_PCT = 0.05
"""Less than this rounds to nothing."""
KG_PER_LB = 0.45359237
BSFC_LB_PER_HP_H = (0.45, 0.55)
"""Consumption at full throttle: the best and a rich race mixture; the catalogue's facts, common practice."""
BSFC_KG_PER_KWH = tuple(each * KG_PER_LB / WATTS_PER_HP * WATTS_PER_KW for each in BSFC_LB_PER_HP_H)


@dataclass(frozen=True, slots=True)
class ThreeWords:
    """A figure of the standard engine and in the tier."""

    what: str
    standard: str
    changed: str


@dataclass(frozen=True, slots=True)
class FactorWords:
    """One cause of wear: what is left of a life, by geometry and by the trade."""

    cause: str
    load: str
    less: str
    ours: str
    more: str
    trade: str
    apart: str
    note: str
    doubtful: bool


CAUSES = {
    "inertia": to_say("revs"),
    "gas": to_say("gas pressure"),
    "heat": to_say("heat"),
    "shifts": to_say("shifting"),
    "launches": to_say("standing starts"),
    "dirt": to_say("dirt"),
    "time": to_say("age"),
}


def figures_of(engine: EngineType, tier: Tier) -> tuple[ThreeWords, ...]:
    """Geometry, motion and gas, standard and tuned. Raises BadGeometry for figures that no engine has."""
    standard, changed = tuned(engine), tuned_by(engine, tier)
    base = engine.crank_power_hp * WATTS_PER_HP
    rows = zip(_motion(standard), _motion(changed), strict=True)
    power = gained(base, tier.power_gain_pct)
    gas = zip(_gas(Watts(base, base, base), standard), _gas(power, changed), strict=True)
    alone = compression_gain_at_most_pct(changed.compression_ratio, standard.compression_ratio)
    said = at_most_in_words(alone) if alone >= LEAST_SAID_PCT else say("nothing")
    power_row, *others = (ThreeWords(what, was, now) for (what, was), (_, now) in gas)
    return (
        *(ThreeWords(what, was, now) for (what, was), (_, now) in rows),
        power_row,
        ThreeWords(say("Of it, compression alone gives"), "", said),
        *others,
    )


def _motion(tune: Tuned) -> tuple[tuple[str, str], ...]:
    return (
        (say("Swept volume"), _with_unit(tune.swept_m3 * 1e6, 0, "cm³")),
        (say("Clearance of a cylinder"), _with_unit(tune.clearance_m3 * 1e6, 1, "cm³")),
        (say("Compression"), compression_in_words(tune.compression_ratio)),
        (say("Rev limit"), revs_in_words(tune.rev_limit_rpm)),
        (say("Mean piston speed"), _with_unit(tune.piston_speed_m_per_s, 1, "m/s")),
        (
            say("Peak piston acceleration"),
            f"{_with_unit(tune.acceleration_m_per_s2, 0, 'm/s²')}, {_with_unit(tune.acceleration_g, 0, 'g')}",
        ),
        (say("Force on a rod, from the moving mass"), _with_unit(tune.force_n / 1000, 1, "kN")),
    )


def _with_unit(value: float, decimals: int, unit: str) -> str:
    return f"{say_figure(value, decimals)}{NO_BREAK}{unit}"


def compression_in_words(ratio: float) -> str:
    """As one says it.

    >>> compression_in_words(12.8)
    '12.8 to 1'
    """
    return say("{ratio} to 1", ratio=say_figure(ratio, 1))


def revs_in_words(rpm: float) -> str:
    """Turns of the crank in a minute."""
    return say("{revs} a minute", revs=say_figure(rpm, 0))


def at_most_in_words(gain_pct: float) -> str:
    """A gain that is a bound."""
    return say("at most {gain}", gain=f"{say_figure(gain_pct, 1)}{NO_BREAK}%")


def _gas(power: Watts, tune: Tuned) -> tuple[tuple[str, str], ...]:
    pressure = bmep_pa(power.typical, tune.swept_m3, tune.power_rpm)
    least, most = (fuel_kg_per_h(power.typical, each) for each in BSFC_KG_PER_KWH)
    return (
        (say("Power at the crank"), _power(power)),
        (say("At"), revs_in_words(tune.power_rpm)),
        (say("Mean effective pressure"), _with_unit(pressure / PASCALS_PER_BAR, 1, "bar")),
        (say("Torque at peak power"), _with_unit(torque_nm(pressure, tune.swept_m3), 0, "Nm")),
        (
            say("Fuel at full power"),
            say("{least} to {most}{gap}kg an hour", least=f"{least:.0f}", most=f"{most:.0f}", gap=NO_BREAK),
        ),
    )


def _power(power: Watts) -> str:
    hp = [each / WATTS_PER_HP for each in (power.low, power.typical, power.high)]
    kw = [each / WATTS_PER_KW for each in (power.low, power.typical, power.high)]
    low, typical, high = (f"{each:.0f}" for each in hp)
    said = say("{hp}{gap}hp ({kw}{gap}kW)", hp=typical, kw=f"{kw[1]:.0f}", gap=NO_BREAK)
    if round(hp[0]) >= round(hp[2]):
        return said
    return say("{power}, {low} to {high}{gap}hp", power=said, low=low, high=high, gap=NO_BREAK)


def loads_in_words(loads: Loads) -> str:
    """Both loads against the standard engine's."""
    return say(
        "By revs {inertia} of the standard load, by gas pressure {gas}. The moving mass is counted as "
        "standard: every per cent that a lighter piston saves takes one off the load of rod, pin and crank, "
        "and nothing off springs and chain.",
        inertia=_two(loads.inertia),
        gas=_two(loads.gas),
    )


def loads_of_tier(engine: EngineType, tier: Tier) -> str:
    """The same for one engine type and tier. Raises BadGeometry."""
    return loads_in_words(loads_of(engine, tier))


def factors_of(catalogue: EngineCatalogue, tier: Tier) -> tuple[FactorWords, ...]:
    """Every cause of wear. Raises BadGeometry."""
    return tuple(_words(row) for row in beside_trade(catalogue.engine_type, tier, catalogue.load_laws))


def _words(row: FactorsBeside) -> FactorWords:
    return FactorWords(
        cause=say(CAUSES[row.cause]),
        load=_two(row.load_ratio),
        less=_two(row.less),
        ours=_two(row.from_geometry),
        more=_two(row.more),
        trade=_two(row.trade),
        apart="" if row.apart is None else f"{100 * row.apart:+.0f}{NO_BREAK}%".replace("-", MINUS),
        note=row.note,
        doubtful=row.doubtful,
    )


def _two(figure: float | None) -> str:
    return "" if figure is None else say_figure(figure, 2)


def strengths_of(catalogue: EngineCatalogue, tier: Tier) -> str:
    """How much more the tier's own grade of parts bears, those that bear alike together."""
    by_strength: dict[float, list[str]] = {}
    for code, strength in catalogue.grade_strength.items():
        if code in tier.performance_grade and code in catalogue.components:
            by_strength.setdefault(strength, []).append(catalogue.components[code].name)
    return "; ".join(
        say("{strength} of a stock part's load: {parts}", strength=_two(strength), parts=listed(names))
        for strength, names in sorted(by_strength.items(), reverse=True)
    )
