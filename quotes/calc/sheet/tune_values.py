"""An option's tune on the sheet: figures from geometry, loads, power as a band, the width of the model."""

from __future__ import annotations

from typing import Literal

from quotes.calc.ask.request import MeasuredPower, Value

PowerKind = Literal["estimated", "measured", "from measured"]


class Figures(Value):
    """A low, typical and high figure."""

    low: float
    typical: float
    high: float


class PowerBand(Value):
    """Power, as a band or as it was measured: then the three are one."""

    kind: PowerKind
    hp: Figures
    kw: Figures
    compression_at_most_pct: float
    """Most that the change of compression could give by itself against the standard engine."""
    measured: MeasuredPower | None = None
    """The figure that stands in place of the estimate, or that the estimate begins from."""
    sentence: str


class LoadFigure(Value):
    """One load against the standard engine's, and what it leaves of the life it wears."""

    cause: Literal["inertia", "gas"]
    ratio: float
    exponent: float
    factor: float | None
    """From geometry, for a stock part; None where the load is outside what is known."""
    trade_factor: float
    """What the trade says and the sums use."""


class ModelWidth(Value):
    """The chance of the planned service by other ways of reckoning its loads; all else as in the option."""

    value: float
    """The option's own mean."""
    strength_less: float
    """Every grade of part bears 0.05 less."""
    strength_more: float
    exponent_less: float
    """Life falls with one power of load less."""
    exponent_more: float
    from_geometry: float
    """Loads from geometry in place of the trade's factors."""

    @property
    def chances(self) -> tuple[float, ...]:
        """The option's own, and by every other way."""
        strength, exponent = (
            (self.strength_less, self.strength_more),
            (self.exponent_less, self.exponent_more),
        )
        return (self.value, *strength, *exponent, self.from_geometry)

    @property
    def low(self) -> float:
        return min(self.chances)

    @property
    def high(self) -> float:
        return max(self.chances)


class TuneFigures(Value):
    """What the tune of an option is, in figures. SI units but for revs (a minute) and g."""

    compression_ratio: float
    rev_limit_rpm: float
    power_rpm: float
    piston_speed_m_per_s: float
    acceleration_m_per_s2: float
    acceleration_g: float
    force_n: float
    loads: tuple[LoadFigure, ...]
    power: PowerBand
    bmep_bar: float
    torque_nm: float
    """At the revs of peak power."""
    width: ModelWidth | None
    """None where a load is outside what is known."""
    notes: tuple[str, ...] = ()
