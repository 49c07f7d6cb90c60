"""Power in words: as a band or as it was measured, and what it rests on."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.ask.request import MeasuredPower
from quotes.calc.said_days import said_day
from quotes.calc.sheet.tune_values import PowerBand
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.words import NO_BREAK

OTHERWISE: Mapping[str, str] = {
    "strength_less": to_say("Race parts bear 0.05 less"),
    "strength_more": to_say("Race parts bear 0.05 more"),
    "exponent_less": to_say("Life falls with one power of load less"),
    "exponent_more": to_say("Life falls with one power of load more"),
    "from_geometry": to_say("Loads from geometry, not the trade's factors"),
}
"""The other ways of reckoning the loads of a tune, by their names."""


def power_at_its_peak(power: PowerBand) -> str:
    """The one figure: what was measured, else the typical one of the band."""
    hp, kw = f"{power.hp.typical:.0f}", f"{power.kw.typical:.0f}"
    said = say("{hp}{gap}hp ({kw}{gap}kW)", hp=hp, kw=kw, gap=NO_BREAK)
    return said if power.kind == "measured" else say("about {figure}", figure=said)


def power_band(power: PowerBand) -> str:
    """The least and the most of an estimate; empty where they are one."""
    low, high = f"{power.hp.low:.0f}", f"{power.hp.high:.0f}"
    if power.kind == "measured" or low == high:
        return ""
    return say("{low} to {high}{gap}hp", low=low, high=high, gap=NO_BREAK)


def power_sentence(power: PowerBand) -> str:
    """What the power rests on."""
    if power.measured is None:
        return say("An estimate at the crank, from the engine type and what the trade gains; not measured.")
    read = measured_in_words(power.measured)
    if power.kind == "measured":
        return say("Measured, not estimated: {read}.", read=read)
    return say(
        "An estimate on what was measured: {read}. To be read on the same dyno, corrected alike.", read=read
    )


def measured_in_words(measured: MeasuredPower) -> str:
    """A dyno figure as it was read, with its day, place and correction."""
    figure = f"{plain_figure(measured.figure)}{NO_BREAK}{measured.unit}"
    if measured.rpm:
        figure = say("{figure} at {revs} a minute", figure=figure, revs=say_figure(measured.rpm, 0))
    day = said_day(measured.on)
    where = say("{day}, no dyno named", day=day)
    if measured.dyno:
        where = say("{day} on {dyno}", day=day, dyno=measured.dyno)
    corrected = say("no correction written down")
    if measured.correction:
        corrected = say("corrected by {rule}", rule=measured.correction)
    return f"{figure}, {where}, {corrected}"
