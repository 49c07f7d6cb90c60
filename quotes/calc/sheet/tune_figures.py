"""The tune of an option in figures: geometry, loads, power and the width of the model."""

from __future__ import annotations

from catalogue.calc.engine import LOAD_CAUSES
from quotes.calc.ask.request import MeasuredPower
from quotes.calc.scope.case import Case
from quotes.calc.sheet.measures import Measures
from quotes.calc.sheet.tune_values import Figures, LoadFigure, ModelWidth, PowerBand, TuneFigures
from quotes.calc.sheet.tune_words import power_sentence
from quotes.calc.tune.gas import PASCALS_PER_BAR, bmep_pa, compression_gain_at_most_pct, torque_nm
from quotes.calc.tune.given import BadGeometry
from quotes.calc.tune.loads import Loads, OutsideKnownLoads, Tuned, factor_from_load, loads_of, tuned_by
from quotes.calc.tune.power import WATTS_PER_HP, WATTS_PER_KW, Watts, gained, measured_w
from quotes.calc.tune.width import Running, chances_otherwise


def tune_figures(case: Case, measures: Measures) -> TuneFigures | None:
    """The figures of the tune that an option is judged on; None where its geometry fits no engine."""
    try:
        tuned = tuned_by(case.catalogue.engine_type, case.tune)
        loads = loads_of(case.catalogue.engine_type, case.tune)
    except BadGeometry:
        return None
    width, said = _width(measures, loads)
    power = power_of(case)
    watts = power.kw.typical * WATTS_PER_KW
    revs = _power_rpm(power.measured if power.kind == "measured" else None, tuned)
    pressure = bmep_pa(watts, tuned.swept_m3, revs)
    return TuneFigures(
        compression_ratio=tuned.compression_ratio,
        rev_limit_rpm=tuned.rev_limit_rpm,
        power_rpm=revs,
        piston_speed_m_per_s=tuned.piston_speed_m_per_s,
        acceleration_m_per_s2=tuned.acceleration_m_per_s2,
        acceleration_g=tuned.acceleration_g,
        force_n=tuned.force_n,
        loads=_loads(case, loads),
        power=power,
        bmep_bar=pressure / PASCALS_PER_BAR,
        torque_nm=torque_nm(pressure, tuned.swept_m3),
        width=width,
        notes=said,
    )


def power_of(case: Case) -> PowerBand:
    """Power in the tune judged on: what a dyno read in it, else the tier's gain on that or on the type's.

    Raises BadGeometry where the compression is none that an engine can have.
    """
    engine, measured = case.catalogue.engine_type, _measured(case)
    had = case.fitted.power_gain_pct.typical
    if measured is None:
        kind, watts = "estimated", gained(engine.crank_power_hp * WATTS_PER_HP, case.tune.power_gain_pct)
    elif case.tune is case.fitted:
        kind, watts = "measured", Watts(*[measured_w(measured)] * 3)
    else:
        kind, watts = "from measured", gained(measured_w(measured), case.tune.power_gain_pct, had)
    changed = engine.compression_ratio + case.tune.compression_delta
    band = {
        "kind": kind,
        "hp": _figures(watts, WATTS_PER_HP),
        "kw": _figures(watts, WATTS_PER_KW),
        "compression_at_most_pct": compression_gain_at_most_pct(changed, engine.compression_ratio),
        "measured": measured,
        "sentence": "",
    }
    power = PowerBand.model_validate(band)
    return power.model_copy(update={"sentence": power_sentence(power)})


def power_left(case: Case) -> PowerBand | None:
    """Power of the engine as it is, where a dyno has read it in the tune that is fitted."""
    try:
        return power_of(case) if _measured(case) and case.tune is case.fitted else None
    except BadGeometry:
        return None


def _measured(case: Case) -> MeasuredPower | None:
    """The dyno figure, where it was read in the tune that is fitted now."""
    measured = case.request.engine.measured_power
    return measured if measured and measured.tier in (None, case.fitted.code) else None


def _figures(watts: Watts, unit_w: float) -> Figures:
    return Figures(low=watts.low / unit_w, typical=watts.typical / unit_w, high=watts.high / unit_w)


def _power_rpm(measured: MeasuredPower | None, tuned: Tuned) -> float:
    return float(measured.rpm) if measured and measured.rpm else tuned.power_rpm


def _loads(case: Case, loads: Loads) -> tuple[LoadFigure, ...]:
    return tuple(
        LoadFigure(
            cause=cause,
            ratio=loads.of(cause),
            exponent=case.catalogue.load_laws[cause].exponent,
            factor=_known_factor(loads.of(cause), case.catalogue.load_laws[cause].exponent),
            trade_factor=case.tune.life_factors.get(cause, 1.0),
        )
        for cause in LOAD_CAUSES
        if cause in case.catalogue.load_laws
    )


def _known_factor(ratio: float, exponent: float) -> float | None:
    try:
        return factor_from_load(ratio, exponent)
    except OutsideKnownLoads:
        return None


def _width(measures: Measures, loads: Loads) -> tuple[ModelWidth | None, tuple[str, ...]]:
    """The chance by every other way; none, and a sentence, where a load is outside what is known."""
    case = measures.case
    running = Running(case.catalogue, case.duty, case.tune, case.fitted, loads)
    try:
        for cause in LOAD_CAUSES:
            factor_from_load(loads.of(cause), 1.0)
        chances = chances_otherwise(measures.drive.course, running)
    except OutsideKnownLoads as outside:
        return None, (str(outside),)
    return ModelWidth(**chances), ()
