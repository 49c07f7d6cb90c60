"""`manage.py fit_life`: ages in, the fit as JSON out, or a line for each fault."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

DATA = {
    "failures": [54, 187, 216, 240, 244, 335, 361, 373, 375, "386.0"],
    "suspensions": [500] * 10,
    "intervals": [],
    "entries": [],
    "beta": None,
}


def run(tmp_path: Path, data: object) -> Any:
    file = tmp_path / "ages.json"
    file.write_text(data if isinstance(data, str) else json.dumps(data), encoding="utf-8")
    out = io.StringIO()
    call_command("fit_life", str(file), stdout=out)
    return json.loads(out.getvalue())


def test_a_fit_comes_out_with_its_bounds(tmp_path: Path) -> None:
    found = run(tmp_path, DATA)
    assert list(found) == [
        *("items", "failed", "beta", "eta", "log_likelihood", "confidence"),
        *("beta_low", "beta_high", "eta_low", "eta_high", "one_parameter", "notes"),
    ]
    assert (found["items"], found["failed"], found["confidence"]) == (20, 10, 0.9)
    assert (found["beta"], found["eta"]) == pytest.approx((1.7208, 606.528), rel=1e-4)
    assert found["beta_low"] < found["beta"] < found["beta_high"]
    assert found["eta_low"] < found["eta"] < found["eta_high"]
    assert (found["one_parameter"], found["notes"]) == (None, [])


def test_a_given_shape_is_answered_beside_the_fit(tmp_path: Path) -> None:
    one = run(tmp_path, DATA | {"beta": 2.0, "confidence": 0.8})["one_parameter"]
    assert (one["beta"], one["rule"]) == (2.0, "chi-square")
    assert one["eta_low"] < one["eta"] < one["eta_high"]


def test_without_a_failure_there_is_a_bound_from_below(tmp_path: Path) -> None:
    found = run(tmp_path, {"suspensions": [100, 200], "beta": 2})
    assert (found["beta"], found["eta_high"], found["one_parameter"]["eta"]) == (None, None, None)
    assert found["one_parameter"]["eta_low"] == pytest.approx(147.36, abs=0.01)
    assert found["notes"][-1] == "one_parameter: no failure: eta_low alone, one-sided at 0.9"


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (DATA | {"failures": [-1], "beta": 500}, "failures.0: -1: .*\nbeta: 500: "),
        ("{", "file: .*: not JSON"),
        ([], r"data: \[\]: an object with failures"),
    ],
)
def test_faults_end_with_status_2(tmp_path: Path, data: object, said: str) -> None:
    with pytest.raises(CommandError, match=said) as stopped:
        run(tmp_path, data)
    assert stopped.value.returncode == 2
