"""What differs between two requests, in words for two people who changed one draft at once."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.ask.request import Edits, EngineAsked, OwnLine, Planned, Request, Segment
from quotes.calc.ask.request_changes import engine_changes, request_changes

ON = date(2026, 11, 25)


def asked(**change: Any) -> Request:
    """A season of sprints for a 600 four."""
    fields = {"on": ON, "engine": EngineAsked(type="four600"), "planned": Planned(duty="sprint")}
    return Request(**(fields | change))


def said(after: Request, before: Request | None = None) -> list[tuple[str, str, str]]:
    return [
        (change.what, change.before, change.after) for change in request_changes(before or asked(), after)
    ]


@pytest.mark.parametrize(
    ("after", "expected"),
    [
        (asked(), []),
        (asked(on=date(2027, 1, 1)), []),
        (asked(target=Decimal("0.95")), [("target", "nothing", "0.95")]),
        (asked(planned=Planned(duty="endurance")), [("planned use", "sprint", "endurance")]),
        (asked(checks="each_season"), [("checks", "each meeting", "each season")]),
        (asked(refresh_list=True), [("whole refresh list", "no", "yes")]),
        (asked(tiers=("refresh",)), [("tiers", "refresh; mild; full", "refresh")]),
        (asked(leave=("rod_bolt", "rings")), [("left", "nothing", "rod bolt; rings")]),
        (
            asked(engine=EngineAsked(type="four600", delivered="in_chassis")),
            [("delivered", "loose", "in chassis")],
        ),
        (
            asked(edits={"mild": Edits(discount_pct=Decimal(5))}),
            [("mild discount pct", "0", "5")],
        ),
        (
            asked(
                edits={"mild": Edits(own_lines=(OwnLine(description="crate", quantity=1, unit_price=40),))}
            ),
            [("mild own lines", "nothing", "crate part 1 each 40 yes")],
        ),
    ],
)
def test_a_change_is_said_by_name_with_both_values(
    after: Request, expected: list[tuple[str, str, str]]
) -> None:
    assert said(after) == expected


def test_the_same_amount_written_otherwise_is_no_change() -> None:
    one, two = (
        asked(planned=Planned(duty="sprint", amount=Decimal(amount), unit="mi"))
        for amount in ("4100", "4100.00")
    )

    assert said(one, two) == []


def test_unknown_history_is_not_the_same_as_none_run() -> None:
    new = EngineAsked(type="four600", history=())
    run = EngineAsked(type="four600", history=(Segment(amount=Decimal(900), unit="mi", duty="sprint"),))

    assert [(change.before, change.after) for change in engine_changes(new, run)] == [
        ("has not run", "900 mi sprint refresh")
    ]
    unknown = EngineAsked(type="four600", history=None)
    assert [change.after for change in engine_changes(new, unknown)] == ["not known"]
