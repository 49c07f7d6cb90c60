"""Only the work that an open question touches waits: what fits the part, and what closes over it."""

from __future__ import annotations

import pytest

from quotes.calc.bench.again.branch import stopped_work
from tests.cast import shipped

WHOLE_TOP = {"top_cover_on", "cams_in", "head_on"}


@pytest.mark.parametrize(
    ("component", "waits", "goes_on"),
    [
        ("gear_4", {"gearbox_in", "gearbox_rebuild", "cases_join", *WHOLE_TOP}, {"valves_in", "rods_on"}),
        ("clutch_friction", {"clutch_in", "clutch_cover_on", "engine_in"}, {"cases_join", *WHOLE_TOP}),
        ("valve_exhaust", {"valves_in", *WHOLE_TOP}, {"cases_join", "gearbox_in", "clutch_in"}),
    ],
)
def test_what_closes_over_the_part_waits_and_the_rest_goes_on(
    component: str, waits: set[str], goes_on: set[str]
) -> None:
    catalogue = shipped("four600")

    stopped = set(stopped_work(catalogue, catalogue.operations, [component]))

    assert waits <= stopped
    assert not goes_on & stopped


@pytest.mark.parametrize("code", ["single450", "twin650", "four600", "four1000"])
def test_opening_and_measuring_never_wait(code: str) -> None:
    catalogue = shipped(code)

    for component in catalogue.components:
        stopped = stopped_work(catalogue, catalogue.operations, [component])
        kinds = {catalogue.operations[each].kind for each in stopped}
        assert not kinds & {"strip", "clean", "inspect", "office"}


def test_work_that_is_not_in_the_job_does_not_wait() -> None:
    catalogue = shipped("four600")

    assert stopped_work(catalogue, ["clutch_in", "clutch_cover_on"], ["gear_4"]) == ()
