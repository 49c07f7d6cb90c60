"""What the record offers: medians of recent jobs, and how long parts lasted."""

from __future__ import annotations

from decimal import Decimal

from quotes.calc.ask.request import EngineAsked, Renewal, Segment
from quotes.calc.bench.ages.lasted import age_of, outcomes
from quotes.calc.bench.offered import offered_hours, offered_lead
from tests.cast import shipped


def decimals(*hours: str) -> list[Decimal]:
    return [Decimal(one) for one in hours]


def test_of_two_jobs_nothing_is_offered() -> None:
    assert offered_hours("head_on", Decimal(1), decimals("1.2", "1.3")) is None


def test_the_median_of_the_last_nine_is_offered_and_odd_ones_are_named() -> None:
    clocked = decimals("9", "9", "1.2", "1.3", "1.4", "1.2", "1.3", "1.4", "1.3", "1.2", "4.0")

    offered = offered_hours("head_on", Decimal(1), clocked)

    assert offered is not None
    assert (offered.median, offered.jobs, offered.outliers) == (Decimal("1.3"), 9, (Decimal("4.0"),))
    assert round(offered.change_pct) == 30


def test_a_suppliers_lead_is_its_median_and_nine_in_ten() -> None:
    offered = offered_lead("Northway", [3, 4, 5, 5, 6, 6, 7, 8, 9, 30])

    assert offered is not None
    assert (offered.median_days, offered.slow_days, offered.deliveries) == (6, 9, 10)


def test_a_part_renewed_with_nothing_wrong_was_still_sound() -> None:
    found = outcomes(
        stopped=["gear_4"],
        worn=["shift_fork", "gear_4"],
        past_limit=["valve_guide"],
        measured_sound=["piston", "valve_guide"],
        renewed=["piston", "valve_spring", "shift_fork"],
    )

    assert found == {
        "gear_4": "failed",
        "shift_fork": "past_limit",
        "valve_guide": "past_limit",
        "piston": "sound",
        "valve_spring": "sound",
    }


def test_an_age_counts_from_the_renewal_and_carries_kilometres_into_miles() -> None:
    engine = EngineAsked(
        type="four600",
        history=(
            Segment(amount=Decimal("1609.344"), unit="km", duty="sprint"),
            Segment(amount=Decimal(3000), unit="mi", duty="sprint"),
        ),
        renewed={"valve_spring": Renewal(at=Decimal(2500), unit="mi")},
    )

    ages = {code: age_of(engine, code, shipped("four600")) for code in ("valve_spring", "piston")}

    assert {code: age.amount for code, age in ages.items() if age} == {
        "valve_spring": Decimal(1500),
        "piston": Decimal(4000),
    }
