"""The work that no job is without."""

from __future__ import annotations

from quotes.calc.scope.rules.every_job import find
from tests.calc.asked import asked
from tests.calc.scope.rules.demands import demands


def test_every_engine_is_received_tested_and_recorded() -> None:
    work = {code for kind, code in demands(find, asked()) if kind == "work"}
    assert {"intake_check", "leakdown_test", "findings_report", "leakdown_final", "build_record"} <= work
