"""The tune in words: power, piston speed and the width of the model, with no figure finer than it bears."""

from __future__ import annotations

from quotes.calc.ask.request import MeasuredPower
from quotes.calc.sheet.tune_values import Figures, ModelWidth, PowerBand, TuneFigures
from quotes.calc.sheet.words import NO_BREAK, percent_band

CAUSE_IN_WORDS = {"inertia": "by revs", "gas": "by gas pressure"}


def power_in_figures(power: PowerBand) -> str:
    """Power with its band, in horsepower and kilowatts."""
    hp, kw = power.hp, power.kw
    typical = f"{hp.typical:.0f}{NO_BREAK}hp ({kw.typical:.0f}{NO_BREAK}kW)"
    if power.kind == "measured":
        return typical
    about = f"about {typical}"
    return f"{about}, {_band(hp)}{NO_BREAK}hp" if _band(hp) else about


def _band(figures: Figures) -> str:
    low, high = f"{figures.low:.0f}", f"{figures.high:.0f}"
    return f"{low} to {high}" if low != high else ""


def power_sentence(power: PowerBand) -> str:
    """What the power rests on."""
    if power.measured is None:
        return "An estimate at the crank, from the engine type and what the trade gains; not measured."
    read = measured_in_words(power.measured)
    if power.kind == "measured":
        return f"Measured, not estimated: {read}."
    return f"An estimate on what was measured: {read}. To be read on the same dyno, corrected alike."


def measured_in_words(measured: MeasuredPower) -> str:
    """A dyno figure as it was read, with its day, place and correction."""
    figure = f"{measured.figure.normalize():f}{NO_BREAK}{measured.unit}"
    at = f" at {measured.rpm:,.0f} a minute" if measured.rpm else ""
    where = f" on {measured.dyno}" if measured.dyno else ", no dyno named"
    corrected = f"corrected by {measured.correction}" if measured.correction else "no correction written down"
    return f"{figure}{at}, {measured.on.day} {measured.on:%B %Y}{where}, {corrected}"


def width_in_words(width: ModelWidth) -> str:
    """The width of the model, in whole per cent; it never stands alone, but beside the chance."""
    band = percent_band(width.low, width.high)
    if " to " not in band:
        return f"Reckoned otherwise the loads of this tune make no odds: {band}."
    return f"With the loads of this tune reckoned otherwise, finishing comes to {band}."


def speed_in_words(figures: TuneFigures) -> str:
    """Mean piston speed at the rev limit."""
    return f"{figures.piston_speed_m_per_s:.1f}{NO_BREAK}m/s at {figures.rev_limit_rpm:,.0f} a minute"
