"""Build cycles of fasteners and shells."""

from __future__ import annotations

from quotes.calc.scope.rules.build_cycles import find
from tests.calc.asked import asked
from tests.calc.scope.rules.demands import demands


def test_rod_bolts_used_again_once_are_not_used_a_third_time() -> None:
    found = demands(find, asked(engine={"build_cycles": {"rod_bolt": 1}}))
    assert found == {("new", "rod_bolt"): "Used again once already: its build cycles are up."}


def test_a_part_of_unlimited_re_use_has_no_cycles() -> None:
    assert demands(find, asked(engine={"build_cycles": {"crankshaft": 1}})) == {}
