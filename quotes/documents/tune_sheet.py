"""The tune of one option for the desk: its figures, its loads, its chance by other ways of reckoning."""

from __future__ import annotations

from quotes.calc.sheet.tune_values import LoadFigure, ModelWidth, TuneFigures
from quotes.calc.sheet.tune_words import power_in_figures
from quotes.documents.words import NO_BREAK, percent_band, whole_percent

Rows = tuple[tuple[str, str], ...]
LOADS = {"inertia": "by revs", "gas": "by gas pressure"}
WAYS = (
    ("strength_less", "Race parts bear 0.05 less"),
    ("strength_more", "Race parts bear 0.05 more"),
    ("exponent_less", "Life falls with one power of load less"),
    ("exponent_more", "Life falls with one power of load more"),
    ("from_geometry", "Loads from geometry, not the trade's factors"),
)


def figure_rows(figures: TuneFigures) -> Rows:
    """Compression, revs, piston and pressure."""
    return (
        ("Power at its peak", power_in_figures(figures.power)),
        ("At", f"{figures.power_rpm:,.0f} a minute"),
        ("Of it, compression alone gives", f"at most {figures.power.compression_at_most_pct:.1f}{NO_BREAK}%"),
        ("Compression", f"{figures.compression_ratio:.1f} to 1"),
        ("Rev limit", f"{figures.rev_limit_rpm:,.0f} a minute"),
        ("Mean piston speed", f"{figures.piston_speed_m_per_s:.1f}{NO_BREAK}m/s"),
        ("Peak piston acceleration", _acceleration(figures)),
        ("Force on a rod, from the moving mass", f"{figures.force_n / 1000:.1f}{NO_BREAK}kN"),
        ("Mean effective pressure", f"{figures.bmep_bar:.1f}{NO_BREAK}bar"),
        ("Torque at peak power", f"{figures.torque_nm:.0f}{NO_BREAK}Nm"),
        *((f"Load {LOADS[load.cause]}", _load(load)) for load in figures.loads),
    )


def width_rows(width: ModelWidth) -> Rows:
    """Finishing by each way of reckoning, in whole per cent, and all of them as a band."""
    return (
        ("As reckoned", whole_percent(width.value)),
        *((words, whole_percent(getattr(width, name))) for name, words in WAYS),
        ("The width of the model", percent_band(width.low, width.high)),
    )


def _acceleration(figures: TuneFigures) -> str:
    return f"{figures.acceleration_m_per_s2:,.0f}{NO_BREAK}m/s², {figures.acceleration_g:,.0f}{NO_BREAK}g"


def _load(load: LoadFigure) -> str:
    ours = "no figure" if load.factor is None else f"{load.factor:.2f}"
    return f"{load.ratio:.2f} of standard; life left {ours}, the trade says {load.trade_factor:.2f}"
