"""Power in words: as a band or as it was measured, and what it rests on."""

from __future__ import annotations

from quotes.calc.ask.request import MeasuredPower
from quotes.calc.sheet.tune_values import PowerBand
from quotes.calc.sheet.words import NO_BREAK


def power_at_its_peak(power: PowerBand) -> str:
    """The one figure: what was measured, else the typical one of the band."""
    said = f"{power.hp.typical:.0f}{NO_BREAK}hp ({power.kw.typical:.0f}{NO_BREAK}kW)"
    return said if power.kind == "measured" else f"about {said}"


def power_band(power: PowerBand) -> str:
    """The least and the most of an estimate; empty where they are one."""
    low, high = f"{power.hp.low:.0f}", f"{power.hp.high:.0f}"
    return "" if power.kind == "measured" or low == high else f"{low} to {high}{NO_BREAK}hp"


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
