"""Loads and tune of one engine type in one tier, in rows of words, the trade's factors beside geometry's."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue, EngineType, Tier
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
    "inertia": "revs",
    "gas": "gas pressure",
    "heat": "heat",
    "shifts": "shifting",
    "launches": "standing starts",
    "dirt": "dirt",
    "time": "age",
}


def figures_of(engine: EngineType, tier: Tier) -> tuple[ThreeWords, ...]:
    """Geometry, motion and gas, standard and tuned. Raises BadGeometry for figures that no engine has."""
    standard, changed = tuned(engine), tuned_by(engine, tier)
    base = engine.crank_power_hp * WATTS_PER_HP
    rows = zip(_motion(standard), _motion(changed), strict=True)
    power = gained(base, tier.power_gain_pct)
    gas = zip(_gas(Watts(base, base, base), standard), _gas(power, changed), strict=True)
    alone = compression_gain_at_most_pct(changed.compression_ratio, standard.compression_ratio)
    said = f"at most {alone:.1f}{NO_BREAK}%" if alone >= LEAST_SAID_PCT else ""
    power_row, *others = (ThreeWords(what, was, now) for (what, was), (_, now) in gas)
    return (
        *(ThreeWords(what, was, now) for (what, was), (_, now) in rows),
        power_row,
        ThreeWords("Of it, compression alone gives", "", said or "nothing"),
        *others,
    )


def _motion(tune: Tuned) -> tuple[tuple[str, str], ...]:
    return (
        ("Swept volume", f"{tune.swept_m3 * 1e6:.0f}{NO_BREAK}cm³"),
        ("Clearance of a cylinder", f"{tune.clearance_m3 * 1e6:.1f}{NO_BREAK}cm³"),
        ("Compression", f"{tune.compression_ratio:.1f} to 1"),
        ("Rev limit", f"{tune.rev_limit_rpm:,.0f} a minute"),
        ("Mean piston speed", f"{tune.piston_speed_m_per_s:.1f}{NO_BREAK}m/s"),
        (
            "Peak piston acceleration",
            f"{tune.acceleration_m_per_s2:,.0f}{NO_BREAK}m/s², {tune.acceleration_g:,.0f}{NO_BREAK}g",
        ),
        ("Force on a rod, from the moving mass", f"{tune.force_n / 1000:.1f}{NO_BREAK}kN"),
    )


def _gas(power: Watts, tune: Tuned) -> tuple[tuple[str, str], ...]:
    pressure = bmep_pa(power.typical, tune.swept_m3, tune.power_rpm)
    least, most = (fuel_kg_per_h(power.typical, each) for each in BSFC_KG_PER_KWH)
    return (
        ("Power at the crank", _power(power)),
        ("At", f"{tune.power_rpm:,.0f} a minute"),
        ("Mean effective pressure", f"{pressure / PASCALS_PER_BAR:.1f}{NO_BREAK}bar"),
        ("Torque at peak power", f"{torque_nm(pressure, tune.swept_m3):.0f}{NO_BREAK}Nm"),
        ("Fuel at full power", f"{least:.0f} to {most:.0f}{NO_BREAK}kg an hour"),
    )


def _power(power: Watts) -> str:
    hp = [each / WATTS_PER_HP for each in (power.low, power.typical, power.high)]
    kw = [each / WATTS_PER_KW for each in (power.low, power.typical, power.high)]
    band = f", {hp[0]:.0f} to {hp[2]:.0f}{NO_BREAK}hp" if round(hp[0]) < round(hp[2]) else ""
    return f"{hp[1]:.0f}{NO_BREAK}hp ({kw[1]:.0f}{NO_BREAK}kW){band}"


def loads_in_words(loads: Loads) -> str:
    """Both loads against the standard engine's."""
    return (
        f"By revs {loads.inertia:.2f} of the standard load, by gas pressure {loads.gas:.2f}. "
        "The moving mass is counted as standard: every per cent that a lighter piston saves takes one off "
        "the load of rod, pin and crank, and nothing off springs and chain."
    )


def loads_of_tier(engine: EngineType, tier: Tier) -> str:
    """The same for one engine type and tier. Raises BadGeometry."""
    return loads_in_words(loads_of(engine, tier))


def factors_of(catalogue: EngineCatalogue, tier: Tier) -> tuple[FactorWords, ...]:
    """Every cause of wear. Raises BadGeometry."""
    return tuple(_words(row) for row in beside_trade(catalogue.engine_type, tier, catalogue.load_laws))


def _words(row: FactorsBeside) -> FactorWords:
    return FactorWords(
        cause=CAUSES[row.cause],
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
    return "" if figure is None else f"{figure:.2f}"


def strengths_of(catalogue: EngineCatalogue, tier: Tier) -> str:
    """How much more the tier's own grade of parts bears, those that bear alike together."""
    by_strength: dict[float, list[str]] = {}
    for code, strength in catalogue.grade_strength.items():
        if code in tier.performance_grade and code in catalogue.components:
            by_strength.setdefault(strength, []).append(catalogue.components[code].name)
    return "; ".join(
        f"{strength:.2f} of a stock part's load: {listed(names)}"
        for strength, names in sorted(by_strength.items(), reverse=True)
    )
