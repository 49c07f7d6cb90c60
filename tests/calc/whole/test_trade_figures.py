"""The trade's own figures come out of the shipped catalogue by our closure and prices.

The figures were computed on the shipped data before the project began; common practice, no source. Basis:
engine delivered loose, 110 an hour for all work, stock parts at list price (performance grade where the tier
says so), machine work at price x 1.15, consumables 4 % of labour between 12 and 60, before tax, quantities
of a full renewal, always-consumed gaskets included. Within one unit of money and 0.05 h, they come out.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Delivered
from quotes.calc.money.price import machine_work_unit_price
from quotes.calc.shop import MarkupBand
from tests.calc.small import shop
from tests.calc.trade_list import hours, job_closure, taken_new
from tests.calc.whole.plain_jobs import bottom_end, plain_job, top_end
from tests.calc.whole.tier_jobs import Job, in_whole_pieces, priced_job, tier_list_job
from tests.cast import shipped

AT_LIST = shop(markup_bands=(MarkupBand(Decimal(0), Decimal(1000)),))
"""A markup so high that list price caps it; 110 an hour for all work."""
MONEY, HOURS, RATIO = Decimal(1), Decimal("0.05"), Decimal("0.005")
"""One unit, and half of the last place that was printed."""


def net(engine: EngineCatalogue, job: Job) -> Decimal:
    return sum((line.net for line in priced_job(engine, job, AT_LIST)), ZERO)


def top_end_sum(engine: EngineCatalogue) -> Decimal:
    return net(engine, plain_job(engine, *top_end(engine)))


def both_ends(engine: EngineCatalogue) -> Job:
    return plain_job(engine, *top_end(engine), *bottom_end(engine))


def both_ends_sum(engine: EngineCatalogue) -> Decimal:
    """On the single the printed sum holds 20.70 for crack testing its one rod.

    Our catalogue does not offer that test there: it needs the rods off the crankshaft, and a pressed-up one
    is sent away whole. So the price of one rod's test is added here, and the tolerance stays one unit.
    """
    job = both_ends(engine)
    if "mpi_rod" in engine.machine_work:
        return net(engine, job)
    test = machine_work_unit_price(shipped("twin650").machine_work["mpi_rod"].cost, AT_LIST)
    return net(engine, job) + test


@pytest.mark.parametrize(
    ("code", "printed_hours", "printed_sum"),
    [
        ("single450", "11.5", 2121),
        ("twin650", "17.9", 3153),
        ("four600", "21.2", 4221),
        ("four1000", "21.2", 4427),
    ],
)
def test_a_top_end(code: str, printed_hours: str, printed_sum: int) -> None:
    engine = shipped(code)
    job = plain_job(engine, *top_end(engine))

    assert abs(hours(engine, job.operations) - Decimal(printed_hours)) <= HOURS
    assert abs(net(engine, job) - printed_sum) <= MONEY


@pytest.mark.parametrize(
    ("code", "printed_hours", "printed_sum", "ratio"),
    [
        ("single450", "22.1", 4453, "2.10"),
        ("twin650", "33.8", 5879, "1.86"),
        ("four600", "45.0", 8418, "1.99"),
        ("four1000", "45.0", 8812, "1.99"),
    ],
)
def test_a_top_end_that_goes_into_the_bottom_end(
    code: str, printed_hours: str, printed_sum: int, ratio: str
) -> None:
    engine = shipped(code)

    assert abs(hours(engine, both_ends(engine).operations) - Decimal(printed_hours)) <= HOURS
    assert abs(both_ends_sum(engine) - printed_sum) <= MONEY
    assert abs(both_ends_sum(engine) / top_end_sum(engine) - Decimal(ratio)) <= RATIO


@pytest.mark.parametrize(
    ("code", "refresh", "mild", "full"),
    [
        ("single450", 1788, 3727, 7780),
        ("twin650", 2821, 5278, 11094),
        ("four600", 3613, 6970, 16600),
        ("four1000", 3697, 7188, 17477),
    ],
)
def test_the_whole_list_of_each_tier(code: str, refresh: int, mild: int, full: int) -> None:
    engine = shipped(code)

    for tier, printed in (("refresh", refresh), ("mild", mild), ("full", full)):
        assert abs(net(engine, tier_list_job(engine, tier, "loose")) - printed) <= MONEY


@pytest.mark.parametrize(("code", "less"), [("single450", "19.32"), ("four600", "1.10")])
def test_a_quote_sends_whole_gear_pairs_where_the_printed_sum_sends_a_share(code: str, less: str) -> None:
    """0.67 of five or six gear pairs is 3.35 or 4.02; 3 or 4 are sent."""
    engine = shipped(code)
    full = tier_list_job(engine, "full", "loose")

    assert net(engine, full) - net(engine, in_whole_pieces(full)) == Decimal(less)


def test_two_plain_jobs_added_up_charge_the_shared_strip_down_twice() -> None:
    engine = shipped("four600")
    alone = [hours(engine, plain_job(engine, *part(engine)).operations) for part in (top_end, bottom_end)]
    together = hours(engine, both_ends(engine).operations)

    assert abs(sum(alone) - Decimal("53.4")) <= HOURS
    assert abs(sum(alone) - together - Decimal("8.4")) <= HOURS


@pytest.mark.parametrize("code", ["four600", "four1000"])
def test_an_engine_in_the_chassis_costs_eight_hours_more(code: str) -> None:
    engine = shipped(code)

    def worked(delivered: Delivered) -> Decimal:
        return hours(engine, plain_job(engine, *top_end(engine), delivered=delivered).operations)

    assert worked("in_chassis") - worked("loose") == Decimal("8.0")


@pytest.mark.parametrize(
    ("code", "printed"), [("single450", "5.6"), ("four600", "24.9"), ("four1000", "24.9")]
)
def test_rings_alone(code: str, printed: str) -> None:
    engine = shipped(code)
    rings = engine.components["rings"]

    job = job_closure(engine, (*rings.access_operations, *rings.with_operations), delivered="loose")

    assert abs(hours(engine, job) - Decimal(printed)) <= HOURS


@pytest.mark.parametrize("code", ["single450", "twin650", "four600", "four1000"])
def test_a_top_end_about_doubles_when_it_goes_into_the_bottom_end(code: str) -> None:
    """1.7 to 2.4 times: common practice, no source."""
    engine = shipped(code)

    assert Decimal("1.7") <= net(engine, both_ends(engine)) / top_end_sum(engine) <= Decimal("2.4")


@pytest.mark.parametrize("code", ["twin650", "four600", "four1000"])
def test_rod_bolts_are_renewed_whenever_they_have_been_undone(code: str) -> None:
    """Common practice, no source: any job that takes the rods off takes new bolts, whatever it is for."""
    engine = shipped(code)
    putting_back = {code for operation in engine.operations.values() for code in operation.undo}
    wanted = [code for code in engine.operations if code not in putting_back]
    jobs = [job_closure(engine, [code], delivered="loose") for code in wanted]

    undone = [job for job in jobs if "rods_off" in job]

    assert job_closure(engine, ["plastic_gauge_rods"], delivered="loose") in undone
    for job in jobs:
        bolts = {"rod_bolt": None} if job in undone else {}
        taken = taken_new(engine, job)
        assert {code: count for code, count in taken.items() if code == "rod_bolt"} == bolts
