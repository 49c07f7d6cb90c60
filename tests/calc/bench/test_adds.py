"""What a build worked out again adds to what was said yes to."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from hypothesis import given
from hypothesis import strategies as some

from catalogue.calc.money import ZERO
from quotes.calc.bench.again.adds import Adds, Working, what_it_adds
from quotes.calc.invoice.sums import line_net
from quotes.calc.sheet.base_values import Service, Spread
from quotes.calc.sheet.line_values import Line, Reason
from quotes.calc.sheet.values import Option
from tests.cast import shipped
from tests.sample_sheet import sample_comparison

BASE = sample_comparison().option("mild")
PART = next(line for line in BASE.lines if line.kind == "part")
FOUR = shipped("four600")
PROMISED = date(2026, 12, 24)


def adds(new: Option, base: Option | None = None, **change: Any) -> Adds:
    base = worked() if base is None else base
    options: dict[str, Any] = {"prices": {}, "promised_on": PROMISED}
    return what_it_adds(Working(base=base, new=new), FOUR, **(options | change))


def worked(*lines: Line, **change: Any) -> Option:
    """The mild build with these lines, all of it where none is named."""
    return of_lines(lines or BASE.lines, **change)


def of_lines(lines: tuple[Line, ...], **change: Any) -> Option:
    """With the sums of the lines, untaxed."""
    net = sum((line.net for line in lines), ZERO)
    sums = {
        "net": Spread(low=net, typical=net, high=net),
        "gross": Spread(low=net, typical=net, high=net),
        "tax": Spread(low=ZERO, typical=ZERO, high=ZERO),
    }
    return BASE.model_copy(update={"lines": lines, **sums, **change})


def with_line(key: str, **change: Any) -> Option:
    return worked(*(line.model_copy(update=change) if line.key == key else line for line in BASE.lines))


def said(found: Adds) -> list[tuple[str, Decimal, Decimal]]:
    return [(line.description, line.quantity, line.unit_price) for line in found.lines]


def test_the_same_working_adds_nothing() -> None:
    assert adds(worked()) == Adds((), (), (), rider_safety=False)


def test_a_line_that_came_is_added_whole_with_its_reason() -> None:
    [line] = adds(worked(), worked(*(one for one in BASE.lines if one is not PART))).lines
    assert (line.description, line.quantity, line.note) == (PART.description, PART.quantity, PART.reason)


def test_what_is_no_longer_needed_is_taken_off_at_its_quoted_price() -> None:
    gone = worked(*(one for one in BASE.lines if one is not PART))
    found = adds(gone, prices={PART.key: Decimal(9)})
    assert said(found) == [(PART.description, -PART.quantity, Decimal(9))]


def test_more_of_a_line_is_added_at_the_price_that_was_quoted() -> None:
    more = with_line(PART.key, quantity=PART.quantity + 2, unit_price=PART.unit_price + 5)
    found = adds(more, prices={PART.key: PART.unit_price})
    assert said(found) == [(PART.description, Decimal(2), PART.unit_price)]


def test_a_price_that_moved_since_the_yes_adds_nothing() -> None:
    dearer = with_line(PART.key, unit_price=PART.unit_price + 5)
    assert adds(dearer, prices={PART.key: PART.unit_price}).lines == ()


def test_dearer_consumables_are_one_sum_more() -> None:
    sundries = next(line for line in BASE.lines if line.kind == "consumables")
    price = sundries.unit_price + Decimal("7.5")
    found = adds(with_line(sundries.key, unit_price=price, net=price))
    assert said(found) == [(sundries.description, Decimal(1), Decimal("7.5"))]


def test_cheaper_consumables_are_one_sum_taken_off() -> None:
    sundries = next(line for line in BASE.lines if line.kind == "consumables")
    price = sundries.unit_price - Decimal("7.5")
    found = adds(with_line(sundries.key, unit_price=price, net=price))
    assert said(found) == [(sundries.description, Decimal(-1), Decimal("7.5"))]


def reason(code: str) -> Reason:
    return Reason(component=code, name=code, code="finding", sentence="Found.", state="must")


def test_a_part_that_can_lock_the_wheel_bears_on_safety() -> None:
    unsafe = next(c.code for c in FOUR.components.values() if c.locks_wheel_or_oils_tyre)
    found = adds(
        worked(renewed={unsafe: reason(unsafe)}, reconditioned={}), worked(renewed={}, reconditioned={})
    )
    assert (found.components, found.touches, found.rider_safety) == ((unsafe,), ("safety",), True)


def test_a_shorter_life_and_a_later_day_are_named_and_the_promise_moves_by_as_much() -> None:
    ready = BASE.ready.model_copy(update={"p80": BASE.ready.p80 + timedelta(days=6)})
    found = adds(worked(ready=ready, good_for=Service(amount=1, unit="mi")))
    assert found.touches == ("life", "date")
    assert found.new_ready_on == PROMISED + timedelta(days=6)


@given(
    was=some.sets(some.sampled_from(BASE.lines)),
    now=some.dictionaries(some.sampled_from(range(len(BASE.lines))), some.integers(1, 9)),
)
def test_where_no_price_moved_the_lines_come_to_what_the_sum_moved(
    was: set[Line], now: dict[int, int]
) -> None:
    base = of_lines(tuple(line for line in BASE.lines if line in was))
    new = of_lines(tuple(times_as_much(BASE.lines[at], times) for at, times in now.items()))
    moved = new.net.typical - base.net.typical
    assert sum((line_net(line, 2) for line in adds(new, base).lines), ZERO) == moved


def times_as_much(line: Line, times: int) -> Line:
    if line.kind in ("consumables", "discount"):
        return line.model_copy(update={"unit_price": line.unit_price * times, "net": line.net * times})
    return line.model_copy(update={"quantity": line.quantity * times, "net": line.net * times})
