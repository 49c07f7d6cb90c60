"""`manage.py totals`: one case in, its totals as JSON out, or a line for each fault."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from tests.calc.invoice.published import CASES, FILE

CASE = next(case for case in CASES if case["id"] == "huf_example_cii")
LINE = {"id": "1", "qty": "3", "price": "1.005", "vat_category": "S", "vat_rate": "20"}


def run(name: str) -> Any:
    out = io.StringIO()
    call_command("totals", name, stdout=out)
    return json.loads(out.getvalue())


def run_on(tmp_path: Path, case: object) -> Any:
    file = tmp_path / "case.json"
    file.write_text(case if isinstance(case, str) else json.dumps(case), encoding="utf-8")
    return run(str(file))


def faults(tmp_path: Path, case: object) -> list[str]:
    """What is said on standard error; the exit status is 2."""
    file = tmp_path / "case.json"
    file.write_text(case if isinstance(case, str) else json.dumps(case), encoding="utf-8")
    said = io.StringIO()
    with pytest.raises(SystemExit) as stopped:
        call_command("totals", str(file), stdout=io.StringIO(), stderr=said)
    assert stopped.value.code == 2
    return said.getvalue().splitlines()


def test_a_case_comes_out_with_the_decimals_of_its_currency(tmp_path: Path) -> None:
    assert run_on(tmp_path, CASE) == {
        "lines": [{"id": "1", "net": "23440"}, {"id": "2", "net": "21389"}, {"id": "3", "net": "24351"}],
        "BT106_line_total": "69180",
        "BT107_allowances": "0",
        "BT108_charges": "0",
        "BT109_total_without_vat": "69180",
        "BT110_vat": "18679",
        "BT112_total_with_vat": "87859",
        "BT113_paid": "0",
        "BT114_rounding": "0",
        "BT115_due": "87859",
        "vat_breakdown": [{"category": "S", "rate": "27.00", "taxable": "69180", "tax": "18679"}],
    }


def test_numbers_may_be_numbers_and_stay_exact(tmp_path: Path) -> None:
    as_text = run_on(tmp_path, {"lines": [LINE], "paid": "1.1"})
    as_numbers = run_on(
        tmp_path, f'{{"lines": [{json.dumps(LINE)}], "paid": 1.1}}'.replace('"1.005"', "1.005")
    )

    assert as_text == as_numbers
    assert as_text["lines"] == [{"id": "1", "net": "3.02"}]
    assert as_text["BT115_due"] == "2.52"


def test_a_case_is_read_from_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(json.dumps(CASE)))

    assert run("-")["BT115_due"] == "87859"


def test_a_file_of_cases_comes_out_as_a_list() -> None:
    found = run(str(FILE))

    assert [one["id"] for one in found] == [case["id"] for case in CASES]


def test_the_net_price_is_the_gross_price_less_its_discount(tmp_path: Path) -> None:
    line = {"id": "1", "qty": "2", "gross_price": "11", "price_discount": "1.5", "vat_category": "Z"}

    assert run_on(tmp_path, {"lines": [line]})["lines"] == [{"id": "1", "net": "19.00"}]


def test_nothing_is_printed_with_a_sign_on_nought(tmp_path: Path) -> None:
    """The tax on -0.02 is -0.004, which rounds to nought."""
    (group,) = run_on(tmp_path, {"lines": [LINE | {"qty": "-1", "price": "0.02"}]})["vat_breakdown"]

    assert (group["taxable"], group["tax"]) == ("-0.02", "0.00")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"lines": []}, "lines: none: at least one line (BR-16)"),
        ({"lines": [LINE | {"qty": "x"}]}, "lines.0.qty: x: input should be a valid decimal"),
        ({"lines": [LINE | {"qty": "NaN"}]}, "lines.0.qty: NaN: input should be a finite number"),
        ({"lines": [LINE | {"price": "-1"}]}, "lines.0.price: -1: input should be greater than or equal"),
        ({"lines": [LINE | {"base_qty": 0}]}, "lines.0.base_qty: 0: input should be greater than 0"),
        ({"lines": [{"id": "1", "qty": 1, "vat_category": "Z"}]}, "lines.0.price: missing: must be given"),
        ({"lines": [LINE | {"vat_category": "X"}]}, "lines.0.vat_category: X: input should be 'S', 'Z'"),
        ({"lines": [LINE | {"vat_category": "E"}]}, "lines.0.vat_rate: 20: 0, for category E bears no tax"),
        ({"lines": [LINE | {"vat_rate": "0"}]}, "lines.0.vat_rate: 0: above 0 for category S"),
        (
            {"lines": [LINE, LINE | {"vat_category": "O", "vat_rate": 0}]},
            "lines.0.vat_category: S: O, as the others are (BR-O-11)",
        ),
        ({"payed": 1}, "payed: 1: no such field"),
        ({"paid": "1.005"}, "paid: 1.005: at most 2 decimals"),
        ({"rounding": "0.5", "money_decimals": 0}, "rounding: 0.5: at most 0 decimals"),
        ({"money_decimals": 9}, "money_decimals: 9: input should be less than or equal to 4"),
        ({"doc_allowances_charges": [{"kind": "gift"}]}, "doc_allowances_charges.0.kind: gift: input"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_named_with_its_value_and_what_is_allowed(
    change: dict[str, Any], said: str, tmp_path: Path
) -> None:
    found = faults(tmp_path, {"lines": [LINE], **change})

    assert any(line.startswith(said) for line in found), found


def test_every_fault_has_its_line(tmp_path: Path) -> None:
    found = faults(tmp_path, {"lines": [LINE | {"qty": "x", "price": "y"}], "paid": "z"})

    assert [line.split(":")[0] for line in found] == ["lines.0.qty", "lines.0.price", "paid"]


@pytest.mark.parametrize("text", ["{", "[" * 100_000, '{"lines": [', "\x00"])
def test_what_is_not_json_is_refused(text: str, tmp_path: Path) -> None:
    assert "not JSON" in faults(tmp_path, text)[0]


def test_a_file_that_is_not_there_is_named() -> None:
    said = io.StringIO()
    with pytest.raises(SystemExit):
        call_command("totals", "nowhere.json", stderr=said)

    assert said.getvalue().startswith("file: nowhere.json: can't be read")


def test_a_fault_in_a_file_of_cases_says_which(tmp_path: Path) -> None:
    assert faults(tmp_path, {"cases": [CASE, CASE | {"paid": "x"}]}) == [
        "cases.1.paid: x: input should be a valid decimal"
    ]
