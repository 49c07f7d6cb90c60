"""What is wrong with a dyno figure that a request brings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import round_half_up
from catalogue.calc.said import say, say_figure
from quotes.calc.ask.fault import Fault
from quotes.calc.ask.request import MeasuredPower, Request
from quotes.calc.bench.leaving.powers import KILOWATTS
from quotes.calc.shop import Shop
from quotes.calc.tune.power import LEAST_SHARE, MOST_REVS_SHARE, MOST_SHARE

FIELD = "engine.measured_power"


def dyno_faults(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Iterator[Fault]:
    """The faults of the figure that the request brings, where it brings one."""
    measured = request.engine.measured_power
    if measured is not None:
        yield from power_faults(measured, catalogue, request.on)


def power_faults(measured: MeasuredPower, catalogue: EngineCatalogue, on: date) -> Iterator[Fault]:
    """A figure that this type of engine can't give, a day to come, a tune that there is not."""
    engine = catalogue.engine_type
    if measured.on > on:
        yield Fault(f"{FIELD}.on", measured.on.isoformat(), not_after(on))
    if measured.tier is not None and measured.tier not in catalogue.tiers:
        yield Fault(
            f"{FIELD}.tier", measured.tier, say("one of {names}", names=", ".join(sorted(catalogue.tiers)))
        )
    low, high = _allowed(measured, engine.crank_power_hp)
    if not low <= measured.figure <= high:
        between = say(
            "from {low} to {high} {unit} for the {engine}",
            low=low,
            high=high,
            unit=measured.unit,
            engine=engine.name,
        )
        yield Fault(f"{FIELD}.figure", f"{measured.figure:f}", between)
    most = Decimal(str(engine.rev_limit_rpm)) * MOST_REVS_SHARE
    if measured.rpm is not None and measured.rpm > most:
        yield Fault(
            f"{FIELD}.rpm", f"{measured.rpm:f}", say("at most {revs} a minute", revs=say_figure(most, 0))
        )


def not_after(on: date) -> str:
    """What is allowed of a day that must not lie ahead."""
    return say("a day not after {day}", day=on)


def _allowed(measured: MeasuredPower, crank_power_hp: float) -> tuple[Decimal, Decimal]:
    """The least and the most that can be so, in the unit it was read in."""
    usual = Decimal(str(crank_power_hp)) * KILOWATTS["hp"] / KILOWATTS[measured.unit]
    return round_half_up(usual * LEAST_SHARE, 0), round_half_up(usual * MOST_SHARE, 0)
