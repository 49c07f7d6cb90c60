"""Bench work at the hours clocked: quoted lines take them on, other operations bring lines of their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

import pytest

from quotes.calc.invoice.clocked import NOT_CLOCKED, NOT_QUOTED, ClockRates, with_clocked_hours
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.money.price import MissingPriceError
from quotes.calc.sheet.line_values import WorkStep
from tests.calc.invoice.plain import draft_line, said


def step(code: str, kind: str, hours: str = "1") -> WorkStep:
    return WorkStep(code=code, name=code.replace("_", " "), kind=kind, hours=Decimal(hours))


RATES = ClockRates(
    quoted=(step("strip_top", "strip"), step("split_cases", "strip"), step("join_cases", "assemble")),
    others={"balance": step("balance", "test"), "port": step("port", "porting")},
    labour={"strip": Decimal(80), "assemble": Decimal(95), "test": Decimal(110)},
    tax_code="standard",
)
STRIP = draft_line("6", "80", key="option:labour:strip", kind="labour", unit="h")
ASSEMBLE = draft_line("9", "95", key="option:labour:assemble", kind="labour", unit="h")
PART = draft_line("4", "20", key="option:part:ring")


def clocked(hours: Mapping[str, str], *lines: DraftLine, rates: ClockRates = RATES) -> dict[str, DraftLine]:
    found = {operation: Decimal(spent) for operation, spent in hours.items()}
    return {line.key: line for line in with_clocked_hours(lines or (STRIP, ASSEMBLE, PART), found, rates)}


def test_a_line_takes_the_hours_of_all_operations_of_its_kind() -> None:
    lines = clocked({"strip_top": "2.5", "split_cases": "4.25", "join_cases": "8"})

    assert said(lines["option:labour:strip"].quantity, lines["option:labour:assemble"].quantity) == "6.75 8"
    assert lines["option:part:ring"] == PART
    assert len(lines) == 3


def test_a_line_of_one_operation_takes_its_hours() -> None:
    line = draft_line("3", "80", key="option:labour:strip_top", kind="labour")
    extra = draft_line("1", "80", key="work:1:1", kind="labour", operation="balance")

    lines = clocked({"strip_top": "2", "balance": "1.5"}, line, extra)

    assert said(lines[line.key].quantity, lines[extra.key].quantity) == "2 1.5"
    assert len(lines) == 2


def test_where_nothing_was_clocked_the_line_stays_as_quoted_and_says_so() -> None:
    lines = clocked({"strip_top": "5"})

    assert lines["option:labour:assemble"] == ASSEMBLE.model_copy(update={"note": NOT_CLOCKED})
    assert lines["option:labour:strip"].note == ""


def test_an_operation_that_was_not_quoted_brings_a_line_at_the_rate_of_its_kind() -> None:
    line = clocked({"balance": "1.5"})["clock:balance"]

    assert said(line.quantity, line.unit_price) == "1.5 110"
    assert (line.kind, line.note, line.tax_code) == ("labour", NOT_QUOTED, "standard")


def test_hours_on_no_operation_are_charged_as_assembly() -> None:
    line = clocked({"": "0.5"})["clock:"]

    assert (line.description, said(line.unit_price)) == ("Other bench work", "95")


def test_hours_within_a_fixed_price_bring_no_line() -> None:
    lines = clocked({"balance": "1.5"}, rates=replace(RATES, paid_otherwise={"balance"}))

    assert "clock:balance" not in lines


def test_a_kind_of_work_without_a_rate_is_named() -> None:
    with pytest.raises(MissingPriceError, match="'porting'"):
        clocked({"port": "1"})


def test_a_labour_line_of_the_desks_own_stays_as_it_was_typed() -> None:
    own = draft_line("2", "70", key="option:labour:own-1", kind="labour")

    assert clocked({"strip_top": "9"}, own)[own.key] == own
