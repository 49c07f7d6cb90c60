"""What a sheet promised over the part of its service that was run."""

from __future__ import annotations

import math

import pytest

from quotes.calc.bench.ages.promised import promised_over
from quotes.calc.scope.case import make_case
from quotes.calc.scope.decide import decide
from quotes.calc.scope.grounds import grounds_of
from quotes.calc.scope.hazards import shown_chance
from quotes.calc.sheet.exposure import exposure_of
from quotes.calc.sheet.exposure_values import Exposure
from quotes.calc.sheet.measures import measure
from tests.calc.asked import tired_four
from tests.calc.small import SHOP
from tests.cast import shipped
from tests.documents.sample_options import sample_option

EXPOSURE = Exposure(
    by_wear=0.2, by_hands=0.02, reached=(0.01, 0.04, 0.09, 0.16, 0.25, 0.36, 0.49, 0.64, 0.81, 1)
)
OPTION = sample_option("refresh")


def hazards(share: float, exposure: Exposure | None = EXPOSURE) -> tuple[float, float]:
    promised = promised_over(OPTION.model_copy(update={"exposure": exposure}), share)
    return promised.wear, promised.hands


def test_the_whole_service_is_the_whole_promise_and_more_is_no_more() -> None:
    assert hazards(1.0) == hazards(1.7) == pytest.approx((0.2, 0.02))


def test_wear_comes_late_and_our_own_faults_evenly() -> None:
    assert hazards(0.5) == pytest.approx((0.05, 0.01))
    assert hazards(0.25) == pytest.approx((0.2 * 0.065, 0.005))
    assert hazards(0.0) == (0.0, 0.0)


def test_a_sheet_of_before_they_were_kept_has_its_chance_alone() -> None:
    wear, hands = hazards(0.5, exposure=None)
    assert math.exp(-2 * wear) == pytest.approx(OPTION.chance.value)
    assert hands == 0.0


def test_what_is_kept_is_what_the_chance_is_worked_out_from() -> None:
    case = make_case(tired_four(), shipped("four600"), SHOP, "refresh")
    plan = decide(grounds_of(case)).plan
    found = exposure_of(measure(case, plan.fitted(case), plan.faults))
    assert math.exp(-found.by_wear - found.by_hands) == pytest.approx(shown_chance(case, plan, case.use))
    half = promised_over(OPTION.model_copy(update={"exposure": found}), 0.5)
    assert half.wear == pytest.approx(
        -math.log(shown_chance(case, plan, case.use / 2)) - found.by_hands, rel=0.02
    )
