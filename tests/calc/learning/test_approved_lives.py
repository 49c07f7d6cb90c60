"""Approved lives laid over the catalogue's."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from catalogue.calc.approved_lives import ApprovedLife, with_approved
from quotes.calc.learning.law import law_of
from tests.cast import shipped

FOUR = shipped("four600")
SINGLE = shipped("single450")


def approved(**change: Any) -> ApprovedLife:
    whole = ApprovedLife(
        component="valve_spring",
        basis="miles",
        engine_type="",
        low=4000.0,
        typical=5200.0,
        high=7000.0,
        shape=3.4,
        evidence=6.0,
        source="our own record",
        teardowns=frozenset({"job:1", "job:2"}),
    )
    return replace(whole, **change)


def test_the_sums_read_the_approved_life_with_its_shape_and_evidence() -> None:
    springs = with_approved(FOUR, [approved()]).components["valve_spring"]

    assert (springs.lives["miles"].typical, springs.shape_on("miles"), springs.evidence_on("miles")) == (
        5200.0,
        3.4,
        6.0,
    )
    assert springs.source_on("miles") == "our own record"
    assert law_of(springs, "miles", 0.10).life == pytest.approx(5200.0)


def test_the_track_teaches_motocross_nothing() -> None:
    springs = with_approved(SINGLE, [approved()]).components["valve_spring"]

    assert springs.lives["hours_mx"] == SINGLE.components["valve_spring"].lives["hours_mx"]
    assert (springs.shape_on("hours_mx"), springs.evidence_on("hours_mx")) == (3.0, 2.0)


def test_a_life_of_one_engine_type_is_no_others() -> None:
    assert with_approved(SINGLE, [approved(engine_type="four600")]) is SINGLE


def test_of_two_changes_of_one_life_the_later_holds() -> None:
    both = [approved(), approved(typical=4700.0, engine_type="four600", teardowns=frozenset({"job:3"}))]
    changed = with_approved(FOUR, both)

    assert changed.components["valve_spring"].lives["miles"].typical == 4700.0
    assert changed.teardowns_seen == 1


def test_each_strip_down_behind_the_lives_is_counted_once() -> None:
    shared = approved(component="clutch_friction", teardowns=frozenset({"job:2", "job:3"}))

    assert with_approved(FOUR, [approved(), shared]).teardowns_seen == 3
    assert with_approved(FOUR, []).teardowns_seen == 0


def test_a_component_that_the_type_lacks_changes_nothing() -> None:
    assert with_approved(FOUR, [approved(component="no_such_part")]) is FOUR
