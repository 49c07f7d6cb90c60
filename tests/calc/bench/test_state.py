"""Where a job stands, in words."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some

from quotes.calc.bench.state import FACTS, OURS, RULES, STATES, Facts, job_state
from quotes.calc.bench.steps import LEAVES, ORDER, comes_to

STEPS = (*ORDER, "sent_back")
ANY_FACTS = some.builds(
    Facts,
    step=some.sampled_from(STEPS),
    outcome=some.sampled_from(("", "reassembled", "in_boxes", "scrapped")),
    **{name: some.booleans() for name in FACTS if name not in ("step", "outcome")},
)


@pytest.mark.parametrize(
    ("facts", "word"),
    [
        ({"step": "received"}, "received"),
        ({"step": "leave_given"}, "authorised for teardown"),
        ({"step": "stripped"}, "stripped and measured"),
        ({"step": "findings"}, "findings issued"),
        ({"step": "findings", "quoted_since": True}, "quoted"),
        ({"step": "findings", "approved": True}, "approved"),
        ({"step": "leave_given", "approved": True}, "authorised for teardown"),
        (
            {"step": "findings", "approved": True, "parts_waiting": True, "work_out": True},
            "waiting for parts",
        ),
        ({"step": "findings", "approved": True, "work_out": True}, "waiting for machine work"),
        ({"step": "assembling", "approved": True, "extra_waiting": True}, "extra work waiting"),
        ({"step": "ready", "approved": True}, "ready"),
        ({"step": "ready", "approved": True, "asked": True, "owes": True}, "invoiced"),
        ({"step": "ready", "approved": True, "asked": True}, "paid"),
        ({"step": "stripped", "held": True}, "on hold"),
        ({"step": "stripped", "said_no": True}, "declined"),
        ({"step": "stripped", "said_no": True, "outcome": "in_boxes"}, "declined, goes in boxes"),
        ({"step": "released", "asked": True}, "in service"),
        ({"step": "released", "came_again": True}, "back for the next"),
        ({"step": "sent_back", "outcome": "scrapped"}, "sent back"),
    ],
)
def test_the_words_of_each_place(facts: dict[str, Any], word: str) -> None:
    assert job_state(Facts(**facts)) == word


@given(ANY_FACTS)
def test_every_job_stands_somewhere_and_what_has_left_is_gone(facts: Facts) -> None:
    word = job_state(facts)
    assert word in STATES
    assert (word in ("in service", "back for the next", "sent back")) == (facts.step in LEAVES)


def test_the_table_asks_for_facts_that_there_are() -> None:
    assert {name for _, wanted in RULES for name in wanted} <= set(FACTS)
    assert set(STATES) >= OURS


@given(some.lists(some.sampled_from((*STEPS, "on_hold", "goes_on")), max_size=12))
def test_a_job_never_goes_back_but_to_what_is_done_again(steps: list[str]) -> None:
    now = "received"
    for step in steps:
        if now in LEAVES:
            break
        after = comes_to(now, step)
        if after in ORDER and after not in ("assembling", "testing"):
            assert ORDER.index(after) >= ORDER.index(now)
        now = after
