"""Invoices that others have published: lines, groups and totals come out as printed, to the last unit."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from quotes.calc.invoice.totals_case import read_case, totals_of
from tests.calc.invoice.published import CASES, every_case


def printed(figures: dict[str, Any]) -> dict[str, Decimal]:
    """The totals among a case's figures. Tax in a second currency is not ours to work out."""
    return {
        name: Decimal(figure)
        for name, figure in figures.items()
        if name.startswith("BT") and name != "BT111_vat_accounting_currency"
    }


def groups(figures: dict[str, Any]) -> dict[tuple[str, Decimal], tuple[Decimal, Decimal]]:
    """Taxable and tax by category and rate; the order of groups means nothing."""
    return {
        (group["category"], Decimal(group["rate"])): (Decimal(group["taxable"]), Decimal(group["tax"]))
        for group in figures["vat_breakdown"]
    }


def test_all_cases_are_there_with_their_source() -> None:
    assert len(CASES) == 12
    for case in CASES:
        assert {"repository", "licence", "path", "commit"} <= case["source"].keys()
        assert case["source"]["repository"] in {"ConnectingEurope/eInvoicing-EN16931", "ZUGFeRD/corpus"}


@every_case
def test_lines_come_out_as_printed(case: dict[str, Any]) -> None:
    worked = totals_of(read_case(case))

    assert [(line["id"], Decimal(line["net"])) for line in worked["lines"]] == [
        (line["id"], Decimal(line["line_net"])) for line in case["lines"]
    ]


@every_case
def test_groups_come_out_as_printed(case: dict[str, Any]) -> None:
    worked = totals_of(read_case(case))

    assert groups(worked) == groups(case["expected"])
    assert len(worked["vat_breakdown"]) == len(case["expected"]["vat_breakdown"])


@every_case
def test_totals_come_out_as_printed(case: dict[str, Any]) -> None:
    worked = printed(totals_of(read_case(case)))

    expected = printed(case["expected"])
    assert {name: worked[name] for name in expected} == expected
    assert not any(worked[name] for name in worked.keys() - expected.keys())


@every_case
def test_what_was_printed_is_not_read(case: dict[str, Any]) -> None:
    given = {"BT113_paid", "BT114_rounding"}
    kept = {name: figure for name, figure in case["expected"].items() if name in given}
    bare = [{name: value for name, value in line.items() if name != "line_net"} for line in case["lines"]]

    assert totals_of(read_case({**case, "expected": kept, "lines": bare})) == totals_of(read_case(case))


@every_case
def test_what_was_paid_may_stand_beside_the_lines(case: dict[str, Any]) -> None:
    expected = case["expected"]
    bare = {name: value for name, value in case.items() if name != "expected"}
    paid, rounding = expected.get("BT113_paid", "0"), expected.get("BT114_rounding", "0")

    assert totals_of(read_case({**bare, "paid": paid, "rounding": rounding})) == totals_of(read_case(case))
