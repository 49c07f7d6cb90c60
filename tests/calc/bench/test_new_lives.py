"""Ages at the hand-over: they begin anew exactly where something was renewed, and fall nowhere else."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from functools import lru_cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.ask.request import EngineAsked, Renewal
from quotes.calc.bench.ages.new_lives import Level, handed_over, planned_lives, service_of, share_used
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.life.units import CannotConvert
from quotes.calc.sheet.values import Option
from tests.calc.asked import ran
from tests.cast import shipped
from tests.sample_sheet import sample_comparison

ON = date(2027, 3, 1)
FOUR = shipped("four600")
ENGINE = EngineAsked(
    type="four600",
    history=(ran(3000), ran(1100, duty="endurance", tier="mild")),
    renewed={"clutch_friction": Renewal(at=Decimal(3000), unit="mi")},
    build_cycles={"bore": 1},
)


def left(engine: EngineAsked, done: dict[str, Level], tune: str | None = None) -> EngineAsked:
    return handed_over(engine, done, FOUR, on=ON, unit="mi", tune=tune)


def share(engine: EngineAsked, code: str) -> float:
    return share_used(engine, code, FOUR, ON)


def test_what_was_renewed_begins_at_what_the_engine_has_run() -> None:
    after = left(ENGINE, {"piston": "new"})

    assert after.renewed["piston"] == Renewal(at=Decimal(4100), unit="mi", on=ON)
    assert share(after, "piston") == 0


def test_what_was_left_keeps_its_age_and_its_own_renewal() -> None:
    after = left(ENGINE, {"piston": "new"})

    assert after.renewed["clutch_friction"] == ENGINE.renewed["clutch_friction"]
    assert share(after, "valve_spring") == share(ENGINE, "valve_spring")


def test_a_reconditioned_part_gets_back_what_reconditioning_gives_and_is_counted() -> None:
    """A crankshaft polished gets half of a new life; a bore replated the whole of it."""
    worn = ENGINE.model_copy(update={"history": (ran(30_000),)})
    after = left(worn, {"crankshaft": "done", "bore": "done"})

    assert share(worn, "crankshaft") > 0.5
    assert share(after, "crankshaft") == pytest.approx(0.5, abs=1e-4)
    assert share(after, "bore") == 0
    assert after.build_cycles == {"crankshaft": 1, "bore": 2}


def test_a_part_hardly_used_is_not_made_older_by_reconditioning() -> None:
    young = ENGINE.model_copy(update={"history": (ran(10),)})

    assert share(left(young, {"crankshaft": "done"}), "crankshaft") == share(young, "crankshaft")


def test_a_new_article_may_be_reconditioned_as_often_as_ever() -> None:
    assert "bore" not in left(ENGINE, {"bore": "new"}).build_cycles


def test_the_tune_is_the_one_that_was_built() -> None:
    assert left(ENGINE, {}, tune="full").fitted == "full"


def test_of_an_unknown_history_only_what_is_new_is_known() -> None:
    unknown = EngineAsked(type="four600")
    after = left(unknown, {"piston": "new"})

    assert (share(after, "piston"), share(after, "rod_bolt")) == (0, share(unknown, "rod_bolt"))


def test_what_can_not_be_told_in_one_unit_is_not_guessed() -> None:
    with pytest.raises(CannotConvert):
        service_of(ENGINE, "runs", FOUR)


CODES = st.sampled_from(sorted(FOUR.components))


@settings(max_examples=15, deadline=None)
@given(
    miles=st.lists(st.integers(0, 6000), min_size=1, max_size=3),
    renewed=st.dictionaries(CODES, st.integers(0, 3000), max_size=3),
    new=st.sets(CODES, max_size=6),
)
def test_no_age_falls_but_where_something_was_renewed(
    miles: list[int], renewed: dict[str, int], new: set[str]
) -> None:
    before = EngineAsked(
        type="four600",
        history=tuple(ran(amount) for amount in miles),
        renewed={code: Renewal(at=Decimal(at), unit="mi") for code, at in renewed.items()},
    )
    after = left(before, dict.fromkeys(new, "new"))

    for code in FOUR.components:
        assert share(after, code) == (0 if code in new else share(before, code))


@lru_cache
def mild() -> Option:
    return sample_comparison().option("mild")


def part(component: str, quantity: int) -> DraftLine:
    return DraftLine(
        kind="part",
        description=component,
        quantity=Decimal(quantity),
        unit="each",
        unit_price=Decimal(10),
        tax_code="standard",
        component=component,
    )


def test_the_option_says_what_is_new_and_what_is_reconditioned() -> None:
    found = planned_lives(mild(), (), (), FOUR)

    assert {code for code, level in found.items() if level == "new"} == set(mild().renewed)
    assert {code for code, level in found.items() if level == "done"} == set(mild().reconditioned)


def test_an_extra_brings_what_comes_with_it() -> None:
    """New pistons bring their rings, pins and circlips."""
    option = mild().model_copy(update={"renewed": {}, "reconditioned": {}, "lines": ()})
    found = planned_lives(option, ("piston",), (), FOUR)

    assert {"piston", "rings", "piston_pin", "circlip"} <= {c for c, level in found.items() if level == "new"}


def test_extra_work_adds_a_part_and_takes_one_off_again() -> None:
    line = (
        mild()
        .lines[0]
        .model_copy(update={"kind": "part", "component": "valve_spring", "quantity": Decimal(16)})
    )
    springs = mild().model_copy(
        update={"renewed": {"valve_spring": mild().renewed["valve_spring"]}, "lines": (line,)}
    )

    assert "valve_spring" not in planned_lives(springs, (), (part("valve_spring", -16),), FOUR)
    other = (part("valve_spring", -16), part("valve_spring", 16))
    assert planned_lives(springs, (), other, FOUR)["valve_spring"] == "new"
    assert planned_lives(springs, (), (part("output_seal", 2),), FOUR)["output_seal"] == "new"
