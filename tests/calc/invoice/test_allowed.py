"""Never more than was accepted: what goes beyond the yes is named, with its sum."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.calc.invoice.allowed import Beyond, asked_of_build, beyond_the_yes
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.sums import draft_sums, invoice_lines
from quotes.calc.invoice.values import Agreed, ExtraAgreed
from tests.calc.invoice.plain import CODES, ON, agreed, draft_line, said

RINGS = draft_line("4", "25", key="option:part:ring", description="Piston ring set")
HONE = draft_line("1", "50", description="Hone the bore", kind="machine_work")


def beyond(
    yes: Agreed, *lines: DraftLine, already: str = "0", accepted: tuple[DraftLine, ...] | None = None
) -> tuple[Beyond, ...]:
    draft = Draft(lines=lines)
    drawn = invoice_lines(draft, CODES, 2)
    return beyond_the_yes(drawn, draft_sums(draft, CODES, 2), yes, Decimal(already), accepted=accepted)


def words(found: tuple[Beyond, ...]) -> list[tuple[str, str]]:
    return [(one.what, said(one.gross)) for one in found]


def test_what_was_accepted_may_be_asked_for() -> None:
    assert beyond(agreed("120"), RINGS) == ()


def test_one_unit_more_may_not() -> None:
    assert words(beyond(agreed("119.99"), RINGS)) == [("The lines: more than was accepted", "0.01")]


def test_a_line_that_no_acceptance_covers_is_named_with_its_sum() -> None:
    assert words(beyond(agreed("120"), RINGS, HONE)) == [("Hone the bore: not accepted", "60")]


def test_the_signed_limit_lets_it_pass() -> None:
    assert beyond(agreed("120", limit_sum="60"), RINGS, HONE) == ()


def test_extra_work_that_was_accepted_lets_it_pass() -> None:
    extra = ExtraAgreed(
        number="Q-2026-0001/1", words="Hone", gross=Decimal(60), accepted_by="Marel Otten", accepted_on=ON
    )
    yes = agreed("120", extra_work=(extra,))

    assert beyond(yes, RINGS, HONE.model_copy(update={"key": "work:1:1"})) == ()


def test_what_was_asked_for_before_counts() -> None:
    found = beyond(agreed("120"), RINGS, already="60")

    assert words(found) == [("The lines: more than was accepted", "60")]


def test_a_line_that_asks_for_more_than_its_own_is_named() -> None:
    accepted = (RINGS.model_copy(update={"quantity": Decimal(3)}),)
    dearer = (RINGS.model_copy(update={"unit_price": Decimal(20)}),)

    more = beyond(agreed("90"), RINGS, accepted=accepted)
    dear = beyond(agreed("96"), RINGS, accepted=dearer)

    assert words(more) == [("Piston ring set: 4 set where 3 set was accepted", "30")]
    assert words(dear) == [("Piston ring set: 25 where 20 was accepted", "24")]
    assert more[0].line == 1


@pytest.mark.parametrize("left", [(), (HONE.model_copy(update={"key": "option:part:other"}),)])
def test_a_line_of_which_nothing_is_left_is_named(left: tuple[DraftLine, ...]) -> None:
    found = beyond(agreed("120"), RINGS, already="120", accepted=left)

    assert words(found) == [("Piston ring set: nothing of it is left to invoice", "120")]


def test_clocked_hours_on_work_that_was_not_quoted_are_named() -> None:
    clocked = draft_line("2", "80", key="clock:balance", kind="labour", description="Balance")

    assert words(beyond(agreed("120"), RINGS, clocked)) == [("Balance: not accepted", "192")]


def test_storage_interest_cores_and_deposits_need_no_acceptance() -> None:
    lines = [
        draft_line("1", "500", kind=kind, description=kind)
        for kind in ("storage", "interest", "core", "deposit")
    ]

    assert beyond(agreed("120"), RINGS, *lines) == ()
    assert [one.what for one in beyond(agreed("120"), RINGS, HONE, *lines)] == ["Hone the bore: not accepted"]
    draft = Draft(lines=(RINGS, *lines))
    assert asked_of_build(invoice_lines(draft, CODES, 2), draft_sums(draft, CODES, 2)) == 120


def test_a_deposit_taken_off_does_not_make_room() -> None:
    off = draft_line("-1", "100", kind="deposit", key="deposit:D-1:standard")

    assert words(beyond(agreed("120"), RINGS, HONE, off)) == [("Hone the bore: not accepted", "60")]


def test_rounding_of_the_tax_of_parts_is_let_pass() -> None:
    """0.03 and 0.03 at 20 % are 0.01 of tax each, and 0.06 bears 0.01 only."""
    half = draft_line("1", "0.03", key="option:part:shim")

    assert beyond(agreed("0.07"), half, already="0.04") == ()
    assert beyond(agreed("0.06"), half, already="0.04") != ()


def test_the_rounding_of_a_ticked_extra_is_let_pass() -> None:
    """0.02 and 0.02 bear no tax apart, 0.04 together bears 0.01."""
    shim, extra = (draft_line("1", "0.02", key=key) for key in ("option:part:shim", "extra:shim:1"))

    assert beyond(agreed("0.04"), shim, extra) == ()
    assert beyond(agreed("0.04"), shim, shim) != ()


def test_a_document_that_gives_back_is_never_beyond() -> None:
    assert beyond(agreed("0"), RINGS.model_copy(update={"quantity": Decimal(-4)})) == ()
