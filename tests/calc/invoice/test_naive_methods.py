"""The common wrong ways of rounding: each comes to another sum on the invoices said to catch it.

The rounding is broken on purpose, in the very modules that sum up our invoices, so these tests also show that
the published cases would notice if somebody broke it for us.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_DOWN, ROUND_HALF_DOWN, ROUND_HALF_EVEN, Context, Decimal
from typing import Any

import pytest

from catalogue.calc.money import round_half_up
from quotes.calc.invoice import sums, totals_case
from quotes.calc.invoice.totals_case import read_case, totals_of
from quotes.calc.money import price, tax
from tests.calc.invoice.published import CASES, catching
from tests.calc.invoice.test_published_cases import groups, printed

Rounding = Callable[[Decimal, int], Decimal]


def rounding(mode: str) -> Rounding:
    def rounded(amount: Decimal, decimals: int = 2) -> Decimal:
        context = Context(prec=60, rounding=mode)
        return amount.quantize(Decimal(1).scaleb(-decimals), context=context)

    return rounded


def break_rounding(monkeypatch: pytest.MonkeyPatch, mode: str) -> None:
    for module in (sums, totals_case, price, tax):
        monkeypatch.setattr(module, "round_half_up", rounding(mode))


def as_printed(case: dict[str, Any]) -> bool:
    worked, expected = totals_of(read_case(case)), case["expected"]
    totals = printed(expected)
    lines = [Decimal(line["net"]) for line in worked["lines"]]
    return (
        lines == [Decimal(line["line_net"]) for line in case["lines"]]
        and {name: printed(worked)[name] for name in totals} == totals
        and groups(worked) == groups(expected)
    )


def ids(cases: list[dict[str, Any]]) -> list[str]:
    return [case["id"] for case in cases]


@pytest.mark.parametrize(
    ("method", "mode"), [("banker_rounding", ROUND_HALF_EVEN), ("half_down", ROUND_HALF_DOWN)]
)
def test_a_wrong_rounding_fails_just_where_it_is_said_to(
    method: str, mode: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    break_rounding(monkeypatch, mode)

    wrong = [case for case in CASES if not as_printed(case)]

    assert ids(wrong) == ids(catching(method))
    assert wrong


def test_the_rounding_is_what_those_tests_break(monkeypatch: pytest.MonkeyPatch) -> None:
    break_rounding(monkeypatch, ROUND_DOWN)

    assert len([case for case in CASES if not as_printed(case)]) > len(catching("half_down"))


def test_tax_line_by_line_fails_just_where_it_is_said_to() -> None:
    wrong = [case for case in CASES if tax_per_line(case) != Decimal(case["expected"]["BT110_vat"])]

    assert ids(wrong) == ids(catching("tax_per_line"))
    assert wrong


def tax_per_line(case: dict[str, Any]) -> Decimal:
    """Tax rounded on each line, allowance and charge by itself, then added up."""
    decimals = case.get("money_decimals", 2)
    signed = [(Decimal(line["line_net"]), Decimal(line["vat_rate"])) for line in case["lines"]]
    for one in case.get("doc_allowances_charges", ()):
        sign = -1 if one["kind"] == "allowance" else 1
        signed.append((sign * Decimal(one["amount"]), Decimal(one["vat_rate"])))
    return sum((round_half_up(net * rate / 100, decimals) for net, rate in signed), Decimal(0))
