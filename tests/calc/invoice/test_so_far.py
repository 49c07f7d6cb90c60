"""What of a yes is owed where it was called off half way."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from quotes.calc.invoice.clocked import with_clocked_hours
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.so_far import bought_so_far, discount_so_far
from tests.calc.invoice.plain import draft_line, said
from tests.calc.invoice.test_clocked import ASSEMBLE, PART, RATES, STRIP

WORK = draft_line("1.5", "110", key="work:1:2", kind="labour", unit="h")
OFF = draft_line("-4", "20", key="work:1:1")
SEATS = draft_line("16", "12", key="option:machine_work:seat_cut", kind="machine_work")
OIL = draft_line("1", "60", key="option:consumables:consumables", kind="consumables")
ALL = (STRIP, ASSEMBLE, PART, SEATS, OIL, WORK, OFF)


def bought(**pieces: str) -> dict[str, DraftLine]:
    by_key = {"ring": PART.key, "seats": SEATS.key}
    found = bought_so_far(ALL, {by_key[name]: Decimal(many) for name, many in pieces.items()}, 2)
    return {line.key: line for line in found}


def test_of_parts_and_machine_work_only_what_was_bought_or_sent_is_owed() -> None:
    lines = bought(ring="3")

    assert said(lines[PART.key].quantity) == "3"
    assert SEATS.key not in lines


def test_no_more_is_owed_than_was_accepted() -> None:
    assert said(bought(ring="10")[PART.key].quantity) == "4"


def test_what_is_not_counted_in_pieces_and_what_was_taken_off_is_left_out() -> None:
    assert not {OIL.key, OFF.key} & bought(ring="4", seats="16").keys()


def test_bench_work_that_nobody_clocked_is_left_out_instead_of_standing_as_quoted() -> None:
    rates = replace(RATES, only_clocked=True)
    lines = with_clocked_hours((*ALL[:3], WORK), {"strip_top": Decimal("2.5")}, rates)

    assert [(line.key, said(line.quantity)) for line in lines] == [(STRIP.key, "2.5"), (PART.key, "4")]


def test_the_discount_goes_with_the_share_that_was_done() -> None:
    discount = draft_line("-1", "100", key="option:discount:1", kind="discount")
    accepted = (draft_line("10", "100", key="a"), discount)

    (left,) = discount_so_far(accepted, [draft_line("4", "100", key="a")], 2)

    assert said(left.quantity, left.unit_price) == "-0.4 100"


def test_no_discount_is_left_where_nothing_was_done() -> None:
    discount = draft_line("-1", "100", key="option:discount:1", kind="discount")
    assert discount_so_far((PART, discount), [], 2) == ()
