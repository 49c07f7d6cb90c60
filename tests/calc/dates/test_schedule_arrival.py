"""The chance that all is there: one lognormal for each shipment, held against drawn lead times."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from catalogue.calc.engine import LeadTime
from quotes.calc.dates.arrival import (
    SLOW_DEVIATIONS,
    Arrival,
    Sent,
    chance_by,
    sent_out,
    shipments_of,
    slowest,
)
from tests.calc.small import machine_work, part

DRAWS = 200_000
IMPORTER, COUNTER, HEAD_SHOP = LeadTime(12, 40), LeadTime(4, 15), LeadTime(6, 15)


def test_the_typical_lead_is_the_median_and_the_slow_one_is_met_nine_times_in_ten() -> None:
    assert chance_by(12, IMPORTER) == pytest.approx(0.5)
    assert chance_by(40, IMPORTER) == pytest.approx(0.9)


def test_the_chance_is_the_lognormal_of_another_library() -> None:
    deviation = math.log(IMPORTER.slow_days / IMPORTER.typical_days) / SLOW_DEVIATIONS
    for day in (1, 5, 12, 33, 90):
        assert chance_by(day, IMPORTER) == pytest.approx(stats.lognorm.cdf(day, deviation, scale=12))


@pytest.mark.parametrize(
    ("days", "lead", "chance"),
    [
        (0, LeadTime(0, 0), 1.0),
        (-1, LeadTime(0, 0), 0.0),
        (0, IMPORTER, 0.0),
        (4.9, LeadTime(5, 5), 0.0),
        (5, LeadTime(5, 5), 1.0),
        (5, LeadTime(5, math.nextafter(5, 6)), 1.0),
        (5, LeadTime(5, 3), 1.0),  # a slow figure below the typical one is read as no spread
    ],
)
def test_leads_without_spread_are_there_or_not(days: float, lead: LeadTime, chance: float) -> None:
    assert chance_by(days, lead) == chance


def test_a_part_that_lies_on_the_shelf_more_often_than_not_still_has_its_slow_day() -> None:
    assert chance_by(3, LeadTime(0, 3)) == pytest.approx(0.9)
    assert chance_by(1, LeadTime(0, 3)) > 0.7


def test_all_is_there_with_the_product_of_the_chances() -> None:
    arrival = Arrival({"importer": IMPORTER, "counter": COUNTER}, [], stripped=0)

    assert arrival.chance(20) == pytest.approx(chance_by(20, IMPORTER) * chance_by(20, COUNTER))


def test_a_shipment_is_as_slow_as_its_slowest_part() -> None:
    assert slowest([LeadTime(4, 60), LeadTime(12, 40)]) == LeadTime(12, 60)
    assert slowest([]) == LeadTime(0, 0)


def test_parts_of_one_supplier_come_in_one_shipment() -> None:
    parts = [
        part("valve_spring", lead=LeadTime(12, 40), supplier="Importer"),
        part("cam_intake", lead=LeadTime(20, 60), supplier="Importer"),
        part("spark_plug", lead=LeadTime(1, 5), supplier="Counter"),
    ]

    assert shipments_of(parts) == {"Importer": LeadTime(20, 60), "Counter": LeadTime(1, 5)}


def test_new_valves_go_along_to_the_seat_cutter_and_old_ones_do_not_hold_it_up() -> None:
    seats = machine_work("seat_cut", vendor="Head shop", lead=HEAD_SHOP)
    valves = part("valve_exhaust", supplier="Importer")

    assert sent_out([seats], [valves]) == {"Head shop": Sent(HEAD_SHOP, frozenset({"Importer"}))}
    assert sent_out([seats], [part("valve_seal")]) == {"Head shop": Sent(HEAD_SHOP)}


def test_what_one_shop_does_goes_there_once_and_takes_its_slowest_work() -> None:
    works = [
        machine_work("seat_cut", vendor="Head shop", lead=LeadTime(6, 15)),
        machine_work("head_skim", vendor="Head shop", lead=LeadTime(4, 20)),
    ]

    assert sent_out(works, []) == {"Head shop": Sent(LeadTime(6, 20))}


def drawn(lead: LeadTime, seed: int) -> np.ndarray:
    deviation = math.log(lead.slow_days / lead.typical_days) / SLOW_DEVIATIONS
    return np.random.default_rng(seed).lognormal(math.log(lead.typical_days), deviation, DRAWS)


@pytest.mark.parametrize("day", [10, 20, 30, 45, 70])
def test_drawn_lead_times_say_the_same_as_the_formula(day: int) -> None:
    stripped = 4.0
    parts = {"importer": IMPORTER, "counter": COUNTER}
    waiting, free = Sent(HEAD_SHOP, frozenset({"importer"})), Sent(LeadTime(8, 20))
    importer, counter = drawn(IMPORTER, 1), drawn(COUNTER, 2)
    heads = np.maximum(importer, stripped) + drawn(HEAD_SHOP, 3)
    cranks = stripped + drawn(LeadTime(8, 20), 4)

    share = float(np.mean(np.maximum.reduce([importer, counter, heads, cranks]) <= day))

    # 0.005: three standard deviations of the draws, and the slices into which the wait is cut
    assert Arrival(parts, [waiting, free], stripped).chance(day) == pytest.approx(share, abs=0.005)


def test_drawn_lead_times_agree_where_two_shipments_are_awaited_by_two_shops() -> None:
    parts = {"importer": IMPORTER, "counter": COUNTER}
    both = frozenset(parts)
    last = np.maximum(np.maximum(drawn(IMPORTER, 5), drawn(COUNTER, 6)), 2.0)
    heads, cranks = last + drawn(HEAD_SHOP, 7), last + drawn(LeadTime(8, 20), 8)

    share = float(np.mean(np.maximum(heads, cranks) <= 35))

    arrival = Arrival(parts, [Sent(HEAD_SHOP, both), Sent(LeadTime(8, 20), both)], stripped=2.0)
    assert arrival.chance(35) == pytest.approx(share, abs=0.005)
