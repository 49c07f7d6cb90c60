"""What is wrong with life data: the field, its value and what is allowed."""

from __future__ import annotations

from typing import Any

import pytest

from quotes.calc.ask.fault import BadRequest
from quotes.calc.life.fit_answer import FitAnswer, answer
from quotes.calc.life.life_data import LifeData, read_life_data
from quotes.calc.life.one_parameter import fit_eta

SOUND = {"failures": [20, 45, 50], "suspensions": [30, 60]}


def answered(**change: Any) -> FitAnswer:
    return answer(read_life_data(SOUND | change))


def said(**change: Any) -> list[str]:
    with pytest.raises(BadRequest) as refused:
        answered(**change)
    return [str(fault) for fault in refused.value.faults]


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"failures": [20, -5]}, "failures.1: -5: input should be greater than 0"),
        ({"failures": [0]}, "failures.0: 0: input should be greater than 0"),
        ({"failures": ["abc"]}, "failures.0: abc: input should be a valid number"),
        ({"failures": [True]}, "failures.0: True: must be a number"),
        ({"failures": [float("nan")]}, "failures.0: nan: input should be"),
        ({"suspensions": [1e12]}, "suspensions.0: 1000000000000.0: input should be less than or equal to"),
        ({"intervals": [[50]]}, "intervals.0.1: missing: must be given"),
        (
            {"intervals": [[30, 40], [50, 50]]},
            "intervals.1: [50, 50]: the age last seen good must be below the age at which it was found",
        ),
        (
            {"entries": [5, 5]},
            "entries: 2 given: none, or one for each of the 5 failures, suspensions and intervals, in that",
        ),
        ({"entries": [0, 45, 0, 0, 0]}, "entries.1: 45: must be below 45, the age of failures.1"),
        ({"entries": [0, 0, 0, 40, 0]}, "entries.3: 40: must be below 30, the age of suspensions.0"),
        (
            {"intervals": [[30, 40]], "entries": [0, 0, 0, 0, 0, 35]},
            "entries.5: 35: at most 30, where intervals.0 was last seen good",
        ),
        ({"beta": 0}, "beta: 0: input should be greater than or equal to 0.1"),
        ({"confidence": 1}, "confidence: 1: input should be less than or equal to 0.999"),
        ({"failure": [1]}, "failure: [1]: no such field"),
        ({"failures": []}, "failures: none: at least one failure or interval is needed; or give beta"),
        ({"failures": [], "suspensions": [], "beta": 2}, "suspensions: none: at least one age is needed"),
    ],
)
def test_one_fault_is_named(change: dict[str, Any], fault: str) -> None:
    (found,) = said(**change)
    assert found.startswith(fault)


def test_all_faults_are_named_at_once() -> None:
    assert [line.split(":")[0] for line in said(failures=[-1, 5], beta="x", intervals=[[1]])] == [
        "failures.0",
        "intervals.0.1",
        "beta",
    ]


def test_data_are_an_object() -> None:
    with pytest.raises(BadRequest, match=r"data: \[1, 2\]: an object with failures"):
        read_life_data([1, 2])


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (LifeData(failures=(50, 50, 50)), "failures: 50, 50, 50: all may have failed at the same age"),
        (LifeData(failures=(50,), suspensions=(40, 50)), "failures: 50: all may have failed at the same age"),
        (LifeData(intervals=((10, 40), (20, 50))), r"intervals: \[10, 40\], \[20, 50\]: all may have failed"),
        (LifeData(failures=(30,), intervals=((20, 50),)), "failures: 30: all may have failed"),
        (
            LifeData(suspensions=(10,), intervals=((0, 20), (40, 41)), entries=(0, 0, 40)),
            r"intervals: \[0, 20\], \[40, 41\]: all may have failed",
        ),
        (LifeData(intervals=((0, 40), (0, 50))), "intervals: .*: nothing was seen sound"),
        (LifeData(failures=(49.9999999999, 50)), "failures: .*: all have failed at the same age but for"),
        (LifeData(intervals=((0, 40),), suspensions=(100,)), "data: 1 failed: the likeliest shape is below"),
    ],
)
def test_data_without_a_fit_say_why(data: LifeData, fault: str) -> None:
    with pytest.raises(BadRequest, match=fault):
        answer(read_life_data(data.model_dump()))


def test_equal_failures_have_a_fit_where_others_ran_on() -> None:
    assert answered(failures=[50, 50], suspensions=[80]).two is not None


def test_a_known_shape_needs_only_one_age() -> None:
    alone = answered(failures=[50], suspensions=[], beta=2)
    assert alone.two is None
    assert alone.one is not None
    assert alone.one.eta == pytest.approx(50)
    assert alone.notes[0].startswith("beta and eta can't be fitted together: failures: 50: all may")


def test_a_known_shape_needs_something_that_ran() -> None:
    with pytest.raises(BadRequest, match="nothing was seen sound while under observation"):
        fit_eta(LifeData(intervals=((30, 40),), entries=(30,)), 2.0, 0.9)


def test_a_bound_that_does_not_exist_is_said() -> None:
    """All came late: lives of any length fit nearly as well, with ever lesser shapes."""
    late = answered(failures=[30, 45, 60], suspensions=[50], entries=[25, 40, 20, 30])
    assert late.bounds is not None
    assert (late.bounds.beta_low, late.bounds.eta_low) == (None, None)
    assert "beta_low: no bound: every lesser shape fits nearly as well" in late.notes
