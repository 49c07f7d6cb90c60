"""What a price list would do: each row counted once, jumps held, and nothing at all the second time."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.price_list.difference import KINDS, Rule, difference, jumps
from catalogue.calc.price_list.listed import Listed
from catalogue.calc.price_list.shown import kept
from tests.calc.prices.rows import OWN, row, stands


def test_each_row_is_new_dearer_cheaper_or_unchanged() -> None:
    before = stands(row("A-1", "10"), row("A-2", "10"), row("A-3", "10"), row("A-4", "10"))
    found = difference([row("A1", "10"), row("a 2", "11"), row("A-3", "9"), row("A-5", "1")], before, OWN)
    assert {kind: found.counts[kind] for kind in KINDS} == {
        "new": 1, "dearer": 1, "cheaper": 1, "unchanged": 1, "superseded": 0,
    }  # fmt: skip
    assert [one.number for one in found.gone] == ["A-4"]


def test_a_number_written_otherwise_is_the_same_article_under_another_name() -> None:
    found = difference([row("a-1")], stands(row("A 1")), OWN)
    assert (found.counts["unchanged"], found.counts["reworded"]) == (1, 1)
    assert [one.number for one in found.write] == ["a-1"]


def test_a_list_of_a_few_articles_makes_none_of_the_others_gone() -> None:
    part_of_it = Rule("USD", None, Decimal(20), whole=False)
    assert difference([row("A-1")], stands(row("A-1"), row("A-2")), part_of_it).gone == []


def test_what_could_not_be_read_is_not_gone() -> None:
    before = stands(row("A-1"), row("A-2"), row("A-3"))
    found = difference([row("A-1"), row("A-2", list_price=Decimal(1))], before, OWN, unread={"A3"})
    assert found.gone == []


def test_a_jump_is_held_until_its_price_has_a_yes() -> None:
    before = stands(row("A-1", "10"))
    held = difference([row("A-1", "12.01")], before, OWN)
    assert [(one.was, one.becomes, one.percent) for one in held.held] == [
        (Decimal("10.0000"), Decimal("12.0100"), Decimal("20.1"))
    ]
    assert held.write == []
    agreed = difference([row("A-1", "12.01")], before, OWN, yes={"A1": Decimal("12.01")})
    assert [one.own_cost for one in agreed.write] == [Decimal("12.01")]
    another = difference([row("A-1", "12.02")], before, OWN, yes={"A1": Decimal("12.01")})
    assert another.write == []


def test_a_first_list_is_held_against_what_the_offer_asks() -> None:
    found = difference([row("A-1", "15")], {}, OWN, offered={"A1": Decimal(10)})
    assert (found.counts["new"], len(found.held), found.write) == (1, 1, [])


def test_a_share_is_passed_only_beyond_it() -> None:
    assert not jumps(Decimal(10), Decimal(12), Decimal(20))
    assert not jumps(Decimal(10), Decimal(8), Decimal(20))
    assert jumps(Decimal(10), Decimal("7.99"), Decimal(20))
    assert jumps(Decimal(0), Decimal("0.01"), Decimal(1000))


def test_a_list_in_another_currency_is_held_against_own_prices() -> None:
    euro = Rule("EUR", Decimal("1.10"), Decimal(20))
    found = difference([row("A-1", "10")], stands(row("A-1", "10")), euro)
    assert (found.counts["dearer"], found.write[0].own_cost) == (1, Decimal("11.0000"))


def test_what_names_another_number_is_superseded_once() -> None:
    listed = [row("A-1", superseded_by="B-1"), row("B-1", line=3)]
    first = difference(listed, stands(row("A-1")), OWN)
    assert (first.counts["superseded"], first.counts["new"]) == (1, 1)
    again = difference(listed, {one.number_key: one for one in first.write}, OWN)
    assert (again.counts["superseded"], again.counts["unchanged"]) == (0, 2)


numbers = st.sampled_from(["A-1", "A1", "b 2", "B2", "C/3", "D4", "E5", "F6"])
costs = st.decimals(0, 500, places=2)


@st.composite
def lists(draw: st.DrawFn) -> list[Listed]:
    drawn = draw(st.lists(st.tuples(numbers, costs, st.none() | costs), max_size=12))
    return [row(no, str(cost), line, list_price=lp) for line, (no, cost, lp) in enumerate(drawn, start=2)]


@given(lists(), lists())
def test_every_row_is_counted_once(before: list[Listed], given_rows: list[Listed]) -> None:
    stood = {one.number_key: one for one in difference(before, {}, OWN).write}
    found = difference(given_rows, stood, OWN)
    counted = (*KINDS, "refused", "twice")
    assert sum(found.counts[kind] for kind in counted) == len(given_rows)


@given(lists(), lists())
def test_the_same_list_twice_changes_nothing(before: list[Listed], given_rows: list[Listed]) -> None:
    stood = {one.number_key: one for one in difference(before, {}, OWN).write}
    once = difference(given_rows, stood, OWN)
    after = stood | {one.number_key: one for one in (*once.write, *once.gone)}
    again = difference(given_rows, after, OWN)
    assert not again.changes_something
    assert [one.key for one in again.held] == [one.key for one in once.held]


def test_a_superseded_number_names_the_last_in_its_place_that_is_listed() -> None:
    rows = (
        row("A", superseded_by="B"),
        row("B", line=3, superseded_by="C"),
        row("C", line=4),
        row("D", line=5, superseded_by="E"),
    )
    found = difference(rows, {}, OWN)
    told = kept(found, (), (), stands(*rows).get)["superseded"]
    assert [(number, by, end) for _, number, _, by, end in told] == [
        ("A", "B", "C"),
        ("B", "C", "C"),
        ("D", "E", ""),
    ]
