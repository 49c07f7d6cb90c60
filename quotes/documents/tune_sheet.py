"""The tune of one option for the desk: its figures, its loads, its chance by other ways of reckoning."""

from __future__ import annotations

from typing import NamedTuple

from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.sheet.tune_values import LoadFigure, ModelWidth, TuneFigures
from quotes.calc.sheet.tune_words import OTHERWISE, power_at_its_peak, power_band
from quotes.documents.loads_page import at_most_in_words, compression_in_words, revs_in_words
from quotes.documents.words import NO_BREAK, percent_band, whole_percent

Rows = tuple[tuple[str, str], ...]
LEAST_SAID_PCT = 0.05
"""Less than this rounds to nothing."""


def figure_rows(figures: TuneFigures) -> Rows:
    """Compression, revs, piston and pressure, then each load with what it leaves of a stock part's life."""
    alone, band = figures.power.compression_at_most_pct, power_band(figures.power)
    from_compression = ((say("Of it, compression alone gives"), at_most_in_words(alone)),)
    return (
        (say("Power at its peak"), power_at_its_peak(figures.power)),
        *(((say("Between"), band),) if band else ()),
        (say("At"), revs_in_words(figures.power_rpm)),
        *(from_compression if alone >= LEAST_SAID_PCT else ()),
        (say("Compression"), compression_in_words(figures.compression_ratio)),
        (say("Rev limit"), revs_in_words(figures.rev_limit_rpm)),
        (say("Mean piston speed"), f"{say_figure(figures.piston_speed_m_per_s, 1)}{NO_BREAK}m/s"),
        (say("Peak piston acceleration"), f"{say_figure(figures.acceleration_m_per_s2, 0)}{NO_BREAK}m/s²"),
        (say("In g"), f"{say_figure(figures.acceleration_g, 0)}{NO_BREAK}g"),
        (say("Force on a rod, from the moving mass"), f"{say_figure(figures.force_n / 1000, 1)}{NO_BREAK}kN"),
        (say("Mean effective pressure"), f"{say_figure(figures.bmep_bar, 1)}{NO_BREAK}bar"),
        (say("Torque at peak power"), f"{say_figure(figures.torque_nm, 0)}{NO_BREAK}Nm"),
        *(row for load in figures.loads for row in _load(load)),
    )


def width_rows(width: ModelWidth) -> tuple[tuple[str, str, str], ...]:
    """Finishing by each way of reckoning, in whole per cent, and all of them as a band, each with its key."""
    return (
        (say("As reckoned"), whole_percent(width.value), "chance"),
        *(
            (say(words), whole_percent(getattr(width, way)), f"reckoned:{way}")
            for way, words in OTHERWISE.items()
        ),
        (say("The width of the model"), percent_band(width.low, width.high), "reckoned"),
    )


class _By(NamedTuple):
    alone: str
    of_standard: str


_BY = {
    "inertia": _By(to_say("Load by revs"), to_say("Load by revs, of standard")),
    "gas": _By(to_say("Load by gas pressure"), to_say("Load by gas pressure, of standard")),
}


def _load(load: LoadFigure) -> Rows:
    """The load, and where there is one what geometry and the trade say that it leaves."""
    by = _BY[load.cause]
    if round(load.ratio, 2) == 1 == load.trade_factor:
        return ((say(by.alone), say("as standard")),)
    ours = say("no figure") if load.factor is None else say_figure(load.factor, 2)
    return (
        (say(by.of_standard), say_figure(load.ratio, 2)),
        (say("Life it leaves, by geometry"), ours),
        (say("Life it leaves, the trade says"), say_figure(load.trade_factor, 2)),
    )
