"""What changed between two workings of one option, line by line."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some
from pydantic import ValidationError

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Reading
from quotes.calc.bench.again.line_changes import LineChanges, line_changes, within_limits
from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.values import Option
from tests.sample_sheet import sample_comparison

SAMPLE = sample_comparison().option("mild")
AT = next(at for at, line in enumerate(SAMPLE.lines) if line.kind == "part")
PART = SAMPLE.lines[AT].model_copy(update={"component": "valve_spring", "reason_code": "due"})
LINES = (*SAMPLE.lines[:AT], PART, *SAMPLE.lines[AT + 1 :])
OLD = SAMPLE.model_copy(update={"lines": LINES})


def option(lines: tuple[Line, ...], tax: Decimal = ZERO, **change: Any) -> Option:
    """The mild build of the sample with other lines, and its sums made from them."""
    net = sum((line.net for line in lines), ZERO)
    sums = {"net": net, "tax": tax, "gross": net + tax}
    spreads = {name: Spread(low=sum_, typical=sum_, high=sum_) for name, sum_ in sums.items()}
    return OLD.model_copy(update={"lines": lines, **spreads, **change})


def without(key: str, **change: Any) -> Option:
    return option(tuple(line for line in OLD.lines if line.key != key), **change)


def with_line(key: str, **change: Any) -> Option:
    return option(tuple(line.model_copy(update=change) if line.key == key else line for line in OLD.lines))


def own(number: int, words: str, net: str = "40") -> Line:
    """A line of the desk's own."""
    fields = {"key": f"part:own-{number}", "code": f"own-{number}", "description": words}
    return OLD.lines[0].model_copy(update=fields | {"kind": "part", "net": Decimal(net), "component": None})


def told(changes: LineChanges) -> list[tuple[str, str, str]]:
    return [(line.how, line.description, line.reason) for line in changes.lines]


WHOLE = option(OLD.lines)
WORK = next(line for line in OLD.lines if line.kind == "machine_work")


def test_the_same_lines_are_all_unchanged() -> None:
    changes = line_changes(WHOLE, WHOLE)
    assert (changes.lines, changes.unchanged) == ((), len(OLD.lines))


def test_a_line_that_came_has_the_reason_of_the_new_sheet() -> None:
    changes = line_changes(without(PART.key), WHOLE)
    assert told(changes) == [("added", PART.description, PART.reason)]
    assert changes.net == PART.net


def test_what_was_measured_within_limits_is_dropped_for_that() -> None:
    changes = line_changes(WHOLE, without(PART.key, renewed={}), {PART.component or ""})
    assert told(changes) == [("dropped", PART.description, "No longer needed: measured within limits.")]
    assert changes.net == -PART.net


def test_what_was_not_measured_is_not_said_to_be_within_limits() -> None:
    [(_, _, reason)] = told(line_changes(WHOLE, without(PART.key, renewed={}, reconditioned={})))
    assert reason == "No longer needed by what was found."


def test_a_quantity_that_changed_is_named_beside_the_old_one() -> None:
    fewer = with_line(WORK.key, quantity=Decimal(2), net=2 * WORK.unit_price)
    [(how, _, reason)] = told(line_changes(WHOLE, fewer))
    assert how == "cheaper"
    assert reason.startswith(f"2 {WORK.unit} instead of {WORK.quantity.normalize():f}.")


def test_a_price_that_moved_alone_is_said_to_have() -> None:
    dearer = with_line(WORK.key, unit_price=WORK.unit_price + 1, net=WORK.net + WORK.quantity)
    assert told(line_changes(WHOLE, dearer)) == [("dearer", WORK.description, "Its price has changed.")]


def test_bench_work_names_what_came_and_what_went() -> None:
    labour = next(line for line in OLD.lines if line.kind == "labour")
    steps = [step.model_copy(update={"kind": labour.code}) for step in OLD.work[:3]]
    was = option(OLD.lines, work=tuple(steps[:2]))
    now = with_line(labour.key, net=labour.net + 10).model_copy(update={"work": tuple(steps[1:])})
    [(_, _, reason)] = told(line_changes(was, now))
    assert reason == f"Now also: {steps[2].name}. No longer: {steps[0].name}."


def test_the_desks_own_lines_are_known_by_their_words_as_they_move_up() -> None:
    was = option((*OLD.lines, own(1, "Loom repaired"), own(2, "Radiator flushed")))
    now = option((*OLD.lines, own(1, "Radiator flushed")))
    assert told(line_changes(was, now)) == [("dropped", "Loom repaired", "Taken off by hand.")]


@given(
    was=some.sets(some.sampled_from(range(len(OLD.lines)))),
    now=some.dictionaries(some.sampled_from(range(len(OLD.lines))), some.integers(-500, 500)),
    taxes=some.tuples(some.integers(0, 900), some.integers(0, 900)),
)
def test_the_changes_add_up_to_the_new_sum_less_the_old(
    was: set[int], now: dict[int, int], taxes: tuple[int, int]
) -> None:
    old = option(tuple(OLD.lines[at] for at in sorted(was)), Decimal(taxes[0]))
    lines = (OLD.lines[at].model_copy(update={"net": OLD.lines[at].net + by}) for at, by in now.items())
    new = option(tuple(lines), Decimal(taxes[1]))
    changes = line_changes(old, new)
    assert sum(line.new - line.old for line in changes.lines) == new.net.typical - old.net.typical
    assert changes.net + changes.tax == new.gross.typical - old.gross.typical
    assert changes.unchanged + sum(line.how != "dropped" for line in changes.lines) == len(now)


def test_changes_that_do_not_add_up_cannot_be() -> None:
    with pytest.raises(ValidationError, match="is not"):
        LineChanges(
            tier="mild",
            name="Mild build",
            lines=(),
            unchanged=0,
            tax=Decimal(1),
            old_gross=Decimal(10),
            new_gross=Decimal(10),
        )


def read(component: str, value: str) -> Reading:
    return Reading(
        component=component,
        quantity="wear",
        value=Decimal(value),
        unit="mm",
        standard=Decimal("0.1"),
        limit=Decimal("0.2"),
        bad_when="above",
    )


def test_one_reading_past_its_limit_is_enough_not_to_be_within() -> None:
    read_so_far = (read("piston", "0.15"), read("bore", "0.15"), read("bore", "0.25"), read("pin", "0.2"))
    assert within_limits(read_so_far) == {"piston", "pin"}
