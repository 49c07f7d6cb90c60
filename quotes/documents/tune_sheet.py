"""The tune of one option for the desk: its figures, its loads, its chance by other ways of reckoning."""

from __future__ import annotations

from quotes.calc.sheet.tune_values import LoadFigure, ModelWidth, TuneFigures
from quotes.calc.sheet.tune_words import power_at_its_peak, power_band
from quotes.documents.words import NO_BREAK, percent_band, whole_percent

Rows = tuple[tuple[str, str], ...]
LOADS = {"inertia": "by revs", "gas": "by gas pressure"}
LEAST_SAID_PCT = 0.05
"""Less than this rounds to nothing."""
WAYS = (
    ("strength_less", "Race parts bear 0.05 less"),
    ("strength_more", "Race parts bear 0.05 more"),
    ("exponent_less", "Life falls with one power of load less"),
    ("exponent_more", "Life falls with one power of load more"),
    ("from_geometry", "Loads from geometry, not the trade's factors"),
)


def figure_rows(figures: TuneFigures) -> Rows:
    """Compression, revs, piston and pressure, then each load with what it leaves of a stock part's life."""
    alone, band = figures.power.compression_at_most_pct, power_band(figures.power)
    from_compression = (("Of it, compression alone gives", f"at most {alone:.1f}{NO_BREAK}%"),)
    return (
        ("Power at its peak", power_at_its_peak(figures.power)),
        *((("Between", band),) if band else ()),
        ("At", f"{figures.power_rpm:,.0f} a minute"),
        *(from_compression if alone >= LEAST_SAID_PCT else ()),
        ("Compression", f"{figures.compression_ratio:.1f} to 1"),
        ("Rev limit", f"{figures.rev_limit_rpm:,.0f} a minute"),
        ("Mean piston speed", f"{figures.piston_speed_m_per_s:.1f}{NO_BREAK}m/s"),
        ("Peak piston acceleration", f"{figures.acceleration_m_per_s2:,.0f}{NO_BREAK}m/s²"),
        ("In g", f"{figures.acceleration_g:,.0f}{NO_BREAK}g"),
        ("Force on a rod, from the moving mass", f"{figures.force_n / 1000:.1f}{NO_BREAK}kN"),
        ("Mean effective pressure", f"{figures.bmep_bar:.1f}{NO_BREAK}bar"),
        ("Torque at peak power", f"{figures.torque_nm:.0f}{NO_BREAK}Nm"),
        *(row for load in figures.loads for row in _load(load)),
    )


def width_rows(width: ModelWidth) -> Rows:
    """Finishing by each way of reckoning, in whole per cent, and all of them as a band."""
    return (
        ("As reckoned", whole_percent(width.value)),
        *((words, whole_percent(getattr(width, name))) for name, words in WAYS),
        ("The width of the model", percent_band(width.low, width.high)),
    )


def _load(load: LoadFigure) -> Rows:
    """The load, and where there is one what geometry and the trade say that it leaves."""
    by = LOADS[load.cause]
    if round(load.ratio, 2) == 1 == load.trade_factor:
        return ((f"Load {by}", "as standard"),)
    ours = "no figure" if load.factor is None else f"{load.factor:.2f}"
    return (
        (f"Load {by}, of standard", f"{load.ratio:.2f}"),
        ("Life it leaves, by geometry", ours),
        ("Life it leaves, the trade says", f"{load.trade_factor:.2f}"),
    )
