"""What changed from the last revision to the next, as the customer reads it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.changes import sheet_changes
from quotes.calc.sheet.issued_values import Party, Sheet
from quotes.calc.sheet.values import Comparison, Option
from tests.sample_sheet import sample_comparison, sample_sheet


def said(after: Sheet, before: Sheet | None = None) -> list[tuple[str, str, str]]:
    return [
        (change.what, change.before, change.after)
        for change in sheet_changes(before or sample_sheet(), after)
    ]


def with_option(tier: str, **change: Any) -> Comparison:
    """The sample with something else about one option."""
    comparison = sample_comparison()
    options = tuple(
        option.model_copy(update=change) if option.tier == tier else option for option in comparison.options
    )
    return comparison.model_copy(update={"options": options})


def option(tier: str) -> Option:
    return sample_comparison().option(tier)


def test_the_same_sheet_has_no_changes() -> None:
    assert said(sample_sheet()) == []


def test_a_new_day_and_a_new_number_of_the_revision_are_no_changes() -> None:
    assert said(sample_sheet(revision=3, issued_on="2026-12-01", valid_until="2026-12-31")) == []


def test_the_same_sheet_in_another_language_has_no_changes() -> None:
    comparison = sample_comparison(planned_in_words="2.000 Meilen Langstreckenrennen")
    assert said(sample_sheet(comparison=comparison, language="de")) == []


def test_the_planned_service_is_told_in_words() -> None:
    after = sample_sheet(comparison=sample_comparison(planned_in_words="1,200 miles of sprint racing"))

    assert said(after) == [
        (
            "Planned service",
            "2,000 miles of endurance racing over 4 meetings",
            "1,200 miles of sprint racing",
        )
    ]


def test_another_customer_and_another_number_are_told() -> None:
    after = sample_sheet(customer=Party(name="Tove Halden"), engine_number="H4-20418")

    assert said(after) == [
        ("Customer", "Marel Otten", "Tove Halden"),
        ("Engine number", "H4-20417", "H4-20418"),
    ]


def test_after_the_strip_down_the_price_is_firm() -> None:
    after = sample_sheet(comparison=sample_comparison(firm=True))

    assert said(after) == [("Price", "a band, until the strip-down", "firm")]


def test_new_terms_are_told_without_repeating_them() -> None:
    after = sample_sheet().model_copy(update={"terms": ("Cash on the day.",)})

    assert said(after) == [("Terms", "as before", "changed")]


def test_a_dearer_option_is_told_with_both_sums() -> None:
    mild = option("mild")
    dearer = Spread(low=mild.gross.low, typical=mild.gross.typical + Decimal("10.00"), high=mild.gross.high)

    after = sample_sheet(comparison=with_option("mild", gross=dearer))

    assert said(after) == [
        ("Mild build, with tax", f"{mild.gross.typical:,.2f}", f"{dearer.typical:,.2f}"),
    ]


def test_lines_taken_out_and_put_in_are_named() -> None:
    lines = option("mild").lines
    renamed = lines[0].model_copy(update={"key": "part:other", "description": "something else"})

    after = sample_sheet(comparison=with_option("mild", lines=(renamed, *lines[1:])))

    assert said(after) == [
        ("Mild build, taken out", lines[0].description, ""),
        ("Mild build, put in", "", "something else"),
    ]


def test_a_line_at_another_quantity_or_price_is_told_with_both() -> None:
    lines = option("mild").lines
    line = lines[0].model_copy(update={"quantity": Decimal("3.50"), "unit_price": Decimal(99), "unit": "h"})
    before = sample_sheet(comparison=with_option("mild", lines=(line, *lines[1:])))
    longer = line.model_copy(update={"quantity": Decimal("4.00")})

    after = sample_sheet(comparison=with_option("mild", lines=(longer, *lines[1:])))

    assert said(after, before) == [
        (f"Mild build: {line.description}", "3.5 h at 99.00", "4 h at 99.00"),
    ]


def test_an_option_that_is_no_longer_offered_is_told() -> None:
    comparison = sample_comparison()
    fewer = comparison.model_copy(update={"options": comparison.options[:2]})

    assert said(sample_sheet(comparison=fewer)) == [
        ("Full power", f"{option('full').gross.typical:,.2f}", "not offered")
    ]


def test_an_option_that_is_offered_for_the_first_time_is_told() -> None:
    comparison = sample_comparison()
    fewer = comparison.model_copy(update={"options": comparison.options[:2]})

    assert said(sample_sheet(), sample_sheet(comparison=fewer)) == [
        ("Full power", "not offered", f"{option('full').gross.typical:,.2f}")
    ]
