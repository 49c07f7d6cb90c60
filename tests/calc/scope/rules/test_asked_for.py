"""What was asked for."""

from __future__ import annotations

from quotes.calc.scope.rules.asked_for import find
from tests.calc.asked import asked
from tests.calc.scope.rules.demands import demands


def test_what_is_asked_for_is_done_and_says_so() -> None:
    assert demands(find, asked(include=("piston",))) == {("new", "piston"): "You asked for it."}


def test_what_is_asked_for_on_one_option_stays_on_that_option() -> None:
    edited = asked(edits={"mild": {"include": ["piston"]}})
    assert demands(find, edited, "mild") == {("new", "piston"): "You asked for it."}
    assert demands(find, edited, "refresh") == {}
