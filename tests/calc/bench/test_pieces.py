"""What became of the pieces of an order: nothing is lost, nothing is made up."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.bench.parts.pieces import KINDS, EventKind, NotSoMany, Standing, moves, standing

TOLD = st.lists(
    st.tuples(st.sampled_from(KINDS), st.decimals(min_value=-6, max_value=6, places=0)), max_size=14
)


def after(ordered: int, *told: tuple[EventKind, int]) -> Standing:
    now = standing(Decimal(ordered), [])
    for kind, quantity in told:
        now = standing(now.ordered, [*now.counts.items(), *moves(now, kind, Decimal(quantity))])
    return now


def counted(now: Standing, *kinds: EventKind) -> list[int]:
    return [int(now.of(kind)) for kind in kinds]


@given(st.integers(1, 12), TOLD)
def test_received_back_ordered_open_returned_and_cancelled_make_what_was_ordered(
    ordered: int, told: list[tuple[EventKind, Decimal]]
) -> None:
    now = standing(Decimal(ordered), [])
    places: dict[str, Decimal] = {"open": Decimal(ordered)}
    places.update((kind, Decimal(0)) for kind in KINDS)
    for kind, quantity in told:
        try:
            written = moves(now, kind, quantity)
        except NotSoMany:
            continue
        now = standing(now.ordered, [*now.counts.items(), *written])
        _moved(places, kind, quantity)
        assert {kind: now.of(kind) for kind in KINDS} == {kind: places[kind] for kind in KINDS}
        assert now.open == places["open"]
        assert sum(places.values()) == ordered
        assert min(places.values()) >= 0


def _moved(places: dict[str, Decimal], kind: str, quantity: Decimal) -> None:
    """The same told by hand: pieces carried one by one from one heap to another."""
    if quantity < 0:
        places[kind] += quantity
        places["open"] -= quantity
        return
    sources = ("damaged", "wrong", "received") if kind == "returned" else ("open", "back_ordered")
    for _ in range(int(quantity)):
        source = next(one for one in sources if places[one] > 0)
        places[source] -= 1
        places[kind] += 1


def test_more_than_is_still_to_come_is_refused_and_says_how_many() -> None:
    now = after(16, ("received", 12))

    with pytest.raises(NotSoMany, match=r"5 is more than is still to come: 4 of 16 \(12 here and good"):
        moves(now, "received", Decimal(5))


def test_a_back_order_that_comes_is_no_longer_on_back_order() -> None:
    now = after(4, ("received", 1), ("back_ordered", 3), ("received", 2))

    assert counted(now, "received", "back_ordered") == [3, 1]
    assert now.open == 0
    assert now.words() == "3 here and good, 1 on back-order"


def test_what_is_no_good_goes_back_before_what_is_good() -> None:
    now = after(4, ("received", 2), ("wrong", 2), ("returned", 3))

    assert counted(now, "received", "wrong", "returned") == [1, 0, 3]
    assert now.done


def test_more_can_not_go_back_than_is_here() -> None:
    with pytest.raises(NotSoMany, match="3 can't go back: only 2 of 4 are here"):
        moves(after(4, ("received", 2)), "returned", Decimal(3))


def test_a_slip_is_taken_back_and_the_pieces_are_open_again() -> None:
    now = after(4, ("damaged", 4), ("damaged", -3))

    assert counted(now, "damaged") == [1]
    assert now.open == 3
    with pytest.raises(NotSoMany, match="only 1 is here and damaged"):
        moves(now, "damaged", Decimal(-2))


def test_none_is_no_event() -> None:
    with pytest.raises(NotSoMany, match="0 pieces"):
        moves(after(4), "received", Decimal(0))
