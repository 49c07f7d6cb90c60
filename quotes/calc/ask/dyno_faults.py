"""What is wrong with a dyno figure that a request brings."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import round_half_up
from quotes.calc.ask.fault import Fault
from quotes.calc.ask.request import MeasuredPower, Request
from quotes.calc.bench.powers import KILOWATTS
from quotes.calc.shop import Shop
from quotes.calc.tune.power import LEAST_SHARE, MOST_REVS_SHARE, MOST_SHARE

FIELD = "engine.measured_power"


def dyno_faults(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    """A figure that this type of engine can't give, a day to come, a tune that there is not."""
    measured, engine = request.engine.measured_power, catalogue.engine_type
    if measured is None:
        return
    if measured.on > request.on:
        yield Fault(f"{FIELD}.on", measured.on.isoformat(), f"a day not after {request.on}")
    if measured.tier is not None and measured.tier not in catalogue.tiers:
        yield Fault(f"{FIELD}.tier", measured.tier, f"one of {', '.join(sorted(catalogue.tiers))}")
    low, high = _allowed(measured, engine.crank_power_hp)
    if not low <= measured.figure <= high:
        between = f"from {low} to {high} {measured.unit} for the {engine.name}"
        yield Fault(f"{FIELD}.figure", f"{measured.figure:f}", between)
    most = Decimal(str(engine.rev_limit_rpm)) * MOST_REVS_SHARE
    if measured.rpm is not None and measured.rpm > most:
        yield Fault(f"{FIELD}.rpm", f"{measured.rpm:f}", f"at most {most:,.0f} a minute")


def _allowed(measured: MeasuredPower, crank_power_hp: float) -> tuple[Decimal, Decimal]:
    """The least and the most that can be so, in the unit it was read in."""
    usual = Decimal(str(crank_power_hp)) * KILOWATTS["hp"] / KILOWATTS[measured.unit]
    return round_half_up(usual * LEAST_SHARE, 0), round_half_up(usual * MOST_SHARE, 0)
