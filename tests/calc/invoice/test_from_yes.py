"""What a yes covers, as lines with keys; what of it is still to invoice; the shares of two payers."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.compare import compare
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.from_yes import ExtraLines, accepted_lines, share, still_to_invoice
from quotes.calc.invoice.sums import draft_sums, line_net
from quotes.calc.money.extras import accepted_gross
from quotes.calc.sheet.values import Option
from tests.calc.asked import tired_four
from tests.calc.invoice.made_up import ANY, DECIMALS, accepted
from tests.calc.invoice.plain import CODES, draft_line, said
from tests.calc.small import SHOP
from tests.cast import shipped
from tests.sample_sheet import sample_comparison

MILD = sample_comparison().option("mild")
ALL = accepted_lines(MILD, part_tax_code="sales")


def by_key(lines: tuple[DraftLine, ...]) -> dict[str, DraftLine]:
    return {line.key: line for line in lines}


def test_the_lines_of_an_option_are_asked_for_as_they_were_quoted() -> None:
    sums = draft_sums(Draft(lines=ALL), CODES, 2)

    assert [line.key for line in ALL] == [f"option:{line.key}" for line in MILD.lines]
    assert (sums.net, sums.tax, sums.gross) == (MILD.net.typical, MILD.tax.typical, MILD.gross.typical)


def test_options_of_the_catalogue_that_ships_come_to_what_was_quoted() -> None:
    discount = {tier: {"discount_pct": 7, "discount_reason": "Team"} for tier in ("refresh", "mild", "full")}
    found = compare(tired_four(edits=discount), shipped("four600"), SHOP)

    for option in found.options:
        lines = accepted_lines(option, part_tax_code=SHOP.taxability["part"])
        sums = draft_sums(Draft(lines=lines), SHOP.tax_codes, SHOP.decimals)
        assert (sums.net, sums.gross) == (option.net.typical, option.gross.typical)
        assert [line.quantity for line in lines if line.kind == "discount"] == [-1] * len(
            [line for line in option.lines if line.kind == "discount"]
        )
        assert any(line.kind == "discount" for line in lines)


def test_an_extra_is_one_line_at_the_price_it_was_offered_at() -> None:
    (component,) = MILD.offered
    lines = accepted_lines(MILD, [component, component], part_tax_code="sales")

    (extra,) = [line for line in lines if line.key.startswith("extra:")]
    assert extra.key == f"extra:{component}:1"
    assert said(extra.quantity) == "1"
    assert extra.unit_price == MILD.offered[component].cost_to_renew
    shown = accepted_gross(MILD, [component])  # the tax of option and extra, each rounded by itself
    assert abs(draft_sums(Draft(lines=lines), CODES, 2).gross - shown) <= Decimal("0.01")


def test_an_extra_that_was_not_offered_is_refused() -> None:
    with pytest.raises(KeyError):
        accepted_lines(MILD, ["crankcase"], part_tax_code="sales")


def test_extra_work_is_keyed_by_its_index_and_place() -> None:
    work = ExtraLines(2, (draft_line("1", "50"), draft_line("2", "10", key="option:part:other")))

    lines = accepted_lines(MILD, (), [work], part_tax_code="sales")

    assert [(line.key, said(line.quantity, line.unit_price)) for line in lines[-2:]] == [
        ("work:2:1", "1 50"),
        ("work:2:2", "2 10"),
    ]


def test_a_part_that_the_customer_brings_is_on_it_at_nothing() -> None:
    option = with_line(MILD, component="piston", kind="part")

    lines = accepted_lines(option, part_tax_code="sales", own_parts=["piston"])

    assert said(lines[0].unit_price) == "0"
    assert lines[0].own_part
    assert "Brought by the customer" in lines[0].note
    assert not any(line.own_part for line in lines[1:])


def with_line(option: Option, **change: object) -> Option:
    first, *rest = option.lines
    return option.model_copy(update={"lines": (first.model_copy(update=change), *rest)})


def test_a_line_of_nothing_is_left_out() -> None:
    option = with_line(MILD, quantity=Decimal(0))

    assert len(accepted_lines(option, part_tax_code="sales")) == len(ALL) - 1


def test_long_words_go_on_in_the_note() -> None:
    words = "Ports matched " * 20

    line = accepted_lines(with_line(MILD, description=words), part_tax_code="sales")[0]

    assert len(line.description) == 200
    assert line.description.endswith("...")
    assert line.note == words.strip()


def test_what_was_asked_for_is_not_asked_for_again() -> None:
    springs = by_key(ALL)["option:part:S-VSP"]

    left = by_key(still_to_invoice(ALL, {"option:part:S-VSP": Decimal(6), ALL[0].key: ALL[0].quantity}))

    assert left["option:part:S-VSP"] == springs.model_copy(update={"quantity": Decimal(10)})
    assert ALL[0].key not in left
    assert len(left) == len(ALL) - 1


def test_more_than_was_accepted_leaves_nothing_and_never_a_return() -> None:
    assert still_to_invoice([ALL[0]], {ALL[0].key: ALL[0].quantity + 1}) == ()


def test_a_discount_that_was_given_is_not_given_again() -> None:
    discount = draft_line("-1", "60", key="option:discount:sales", kind="discount")

    assert still_to_invoice([discount], {discount.key: Decimal(-1)}) == ()
    assert still_to_invoice([discount], {}) == (discount,)


def test_the_last_part_of_a_line_makes_the_parts_add_up() -> None:
    line = draft_line("1", "0.05", key="option:part:shim")
    first = line.model_copy(update={"quantity": Decimal("0.5")})

    (last,) = still_to_invoice([line], {line.key: first.quantity}, nets={line.key: line_net(first, 2)})

    assert said(line_net(first, 2), line_net(last, 2)) == "0.03 0.02"
    assert last.adjustments[0].reason == "So that the parts add up"


def test_a_price_that_was_changed_on_an_earlier_part_is_not_taken_for_rounding() -> None:
    line = draft_line("2", "100", key="option:part:rod")

    (last,) = still_to_invoice([line], {line.key: Decimal(1)}, nets={line.key: Decimal(80)})

    assert last.adjustments == ()


def test_a_share_of_nothing_is_nothing() -> None:
    assert share(ALL, Decimal(0)) == ()
    assert share(ALL, Decimal(100)) == ALL


PERCENT = st.integers(1, 9999).map(lambda number: Decimal(number) / 100)


@ANY
@given(st.data(), PERCENT)
def test_the_shares_of_two_payers_make_the_whole(data: st.DataObject, pct: Decimal) -> None:
    decimals = data.draw(DECIMALS)
    lines = data.draw(accepted(decimals))
    first = by_key(share(lines, pct, decimals=decimals))
    asked = {key: line.quantity for key, line in first.items()}
    nets = {key: line_net(line, decimals) for key, line in first.items()}
    left = still_to_invoice(lines, asked, nets=nets, decimals=decimals)

    second = by_key(share(lines, 100 - pct, left=left, decimals=decimals))

    for line in lines:
        both = [part for part in (first.get(line.key), second.get(line.key)) if part is not None]
        assert sum(part.quantity for part in both) == line.quantity
        assert sum(line_net(part, decimals) for part in both) == line_net(line, decimals)


@ANY
@given(st.data())
def test_invoices_in_parts_come_to_the_whole_and_to_no_more(data: st.DataObject) -> None:
    decimals = data.draw(DECIMALS)
    lines = data.draw(accepted(decimals))
    asked: dict[str, Decimal] = {}
    nets: dict[str, Decimal] = {}
    taxes: dict[tuple[str, Decimal], Decimal] = {}
    parts = [*data.draw(st.lists(PERCENT, max_size=3)), Decimal(100)]
    for pct in parts:
        left = still_to_invoice(lines, asked, nets=nets, decimals=decimals)
        part = Draft(lines=share(lines, pct, left=left, decimals=decimals))
        for line in part.lines:
            asked[line.key] = asked.get(line.key, Decimal(0)) + line.quantity
            nets[line.key] = nets.get(line.key, Decimal(0)) + line_net(line, decimals)
        for group in draft_sums(part, CODES, decimals).tax_groups:
            key = (group.category, group.rate_pct)
            taxes[key] = taxes.get(key, Decimal(0)) + group.tax

    assert asked == {line.key: line.quantity for line in lines}
    assert nets == {line.key: line_net(line, decimals) for line in lines}
    assert still_to_invoice(lines, asked, nets=nets, decimals=decimals) == ()
    for group in draft_sums(Draft(lines=lines), CODES, decimals).tax_groups:
        off = abs(taxes[group.category, group.rate_pct] - group.tax)
        assert off <= Decimal(len(parts)).scaleb(-decimals) / 2 + Decimal(1).scaleb(-decimals) / 2


@ANY
@given(st.data())
def test_whole_lines_on_two_invoices_are_off_by_one_unit_of_tax_at_most(data: st.DataObject) -> None:
    decimals = data.draw(DECIMALS)
    lines = data.draw(accepted(decimals))
    cut = data.draw(st.integers(0, len(lines)))
    whole = draft_sums(Draft(lines=lines), CODES, decimals)
    first, second = (draft_sums(Draft(lines=some), CODES, decimals) for some in (lines[:cut], lines[cut:]))

    taxes = {(g.category, g.rate_pct): -g.tax for g in whole.tax_groups}
    for group in (*first.tax_groups, *second.tax_groups):
        taxes[group.category, group.rate_pct] += group.tax
    assert first.net + second.net == whole.net
    assert all(abs(off) <= Decimal(1).scaleb(-decimals) for off in taxes.values())
