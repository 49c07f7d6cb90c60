"""Job margin of a build, and of several by tier and engine type."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from quotes.calc.books.margin import BuildMargin, QuotedAgainst, margins_of
from tests.calc.invoice.plain import said as figures


def build(name: str, tier: str = "Mild build", **change: Any) -> BuildMargin:
    fields: dict[str, Any] = {
        "build_id": 1,
        "customer": "Marel Otten",
        "engine_type": "600 inline four",
        "hours": QuotedAgainst(quoted=Decimal(20), actual=Decimal(24)),
        "parts": QuotedAgainst(quoted=Decimal(800), actual=Decimal(850)),
        "machine_work": QuotedAgainst(quoted=Decimal(300), actual=Decimal(280)),
        "other_cost": Decimal(20),
        "labour_cost": Decimal(960),
        "invoiced": Decimal(4220),
    }
    return BuildMargin(name=name, tier=tier, **(fields | change))


def test_the_margin_is_what_was_invoiced_less_what_it_took() -> None:
    one = build("Q-1")

    assert one.margin_pct == Decimal("50.0")
    assert figures(one.cost, one.margin) == "2110 2110"
    assert figures(one.hours.over, one.parts.over, one.machine_work.over) == "4 50 -20"


def test_a_build_of_which_nothing_stands_invoiced_has_no_share() -> None:
    assert build("Q-1", invoiced=Decimal(0)).margin_pct is None


def test_builds_are_added_up_by_tier_and_engine_type() -> None:
    margins = margins_of([build("Q-1"), build("Q-2", "Refresh"), build("Q-3", engine_type="450 single")])

    assert [(one.name, one.builds, figures(one.margin)) for one in margins.tiers] == [
        ("Mild build", 2, "4220"),
        ("Refresh", 1, "2110"),
    ]
    assert [(one.name, figures(one.hours.actual)) for one in margins.engine_types] == [
        ("450 single", "24"),
        ("600 inline four", "48"),
    ]
    assert (margins.total.builds, figures(margins.total.invoiced)) == (3, "12660")
