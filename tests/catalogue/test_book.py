"""The whole catalogue in a workbook: written out, changed, and taken in again."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest

from catalogue.actions.book import BookMoved, take_in_book
from catalogue.actions.changed import CardChange, card_changed
from catalogue.actions.editing import Edit, add_entry, change_entry
from catalogue.models import Change, Offer, OwnValue, Part, Supplier
from catalogue.queries import rows_as_written
from catalogue.queries.shapes import SHAPES
from quotes.imports.catalogue_book.check import CheckedBook
from quotes.queries.catalogue_uses import uses
from tests.cast import owner
from tests.catalogue.books import cell, changed, checked, line_of, with_line, without, written_out
from tests.catalogue.conftest import NOW
from tests.quotes import cast
from tests.shipped import unload

# What is written goes the way of an edit by hand, which is tested on both.
pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("loaded"), pytest.mark.one_database]
PISTON = {"code": "FOUR600-PISTON"}
OFFER = {"part": "FOUR600-PISTON"}
NEW_SUPPLIER = {"code": "yard_2", "name": "Second yard", "kind": "parts"}


def take_in(found: CheckedBook) -> None:
    assert found.given is not None
    assert found.plan is not None
    take_in_book(
        given=found.given, looked_at=found.plan, used=uses, source="workbook yard.xlsx", by=owner(), now=NOW
    )


@contextmanager
def listening(heard: list[CardChange]) -> Iterator[None]:
    """What is told of cards meanwhile."""

    def hear(card: CardChange, **_: Any) -> None:
        heard.append(card)

    card_changed.connect(hear)
    try:
        yield
    finally:
        card_changed.disconnect(hear)


def test_written_out_and_taken_in_nothing_changes_and_an_empty_catalogue_is_filled() -> None:
    pages, before = written_out(), rows_as_written()
    found = checked(pages)
    assert (found.faults, found.moves) == ((), ())
    unload()
    take_in(checked(pages))
    after = rows_as_written()
    for kind in SHAPES:
        assert getattr(after, kind) == getattr(before, kind), kind


def test_changes_are_made_as_if_by_hand_and_told() -> None:
    pages = changed(
        cell("parts", PISTON, "list price", 91.5),
        cell("offers", OFFER, "cost", 60.25),
        with_line("suppliers", **NEW_SUPPLIER),
    )
    found = checked(pages)
    assert found.faults == ()
    assert [(one.sheet, one.line, one.head, one.before, one.after) for one in found.changes] == [
        ("suppliers", "yard_2", "", "", "name Second yard; kind parts"),
        ("parts", "FOUR600-PISTON", "list price", "92.00", "91.50"),
        ("offers", "FOUR600-PISTON, main_parts", "cost", "73.60", "60.25"),
    ]
    assert found.counts == [("suppliers", 1, 0, 0), ("parts", 0, 1, 0)]
    take_in(found)
    assert Part.objects.get(code="FOUR600-PISTON").list_price == Decimal("91.50")
    assert Offer.objects.get(part="FOUR600-PISTON").cost == Decimal("60.25")
    assert set(Change.objects.values_list("entry", "field")) == {
        ("FOUR600-PISTON", "list_price"), ("FOUR600-PISTON", "offers"), ("yard_2", "code"),
    }  # fmt: skip
    assert set(OwnValue.objects.values_list("field", "source")) == {
        ("list_price", "workbook yard.xlsx"), ("offers", "workbook yard.xlsx"),
    }  # fmt: skip
    assert checked(pages).moves == ()


def test_what_somebody_else_changed_meanwhile_stays_where_it_is_another_field() -> None:
    pages = changed(cell("parts", PISTON, "list price", 91.5))
    change_entry(edit=Edit("parts", "FOUR600-PISTON", {"note": "Theirs."}, 1), by=owner(), now=NOW)
    add_entry(kind="suppliers", values=NEW_SUPPLIER, by=owner(), now=NOW)
    found = checked(pages)
    assert [(move.code, move.fields, move.theirs) for move in found.moves] == [
        ("FOUR600-PISTON", ("list_price",), ("note",))
    ]
    take_in(found)
    part = Part.objects.get(code="FOUR600-PISTON")
    assert (part.list_price, part.note, part.version) == (Decimal("91.50"), "Theirs.", 3)
    assert Supplier.objects.filter(code="yard_2").exists()


def test_the_same_field_changed_twice_is_refused_and_says_who_and_when() -> None:
    pages = changed(cell("parts", PISTON, "list price", 91.5))
    before = checked(pages)
    change_entry(edit=Edit("parts", "FOUR600-PISTON", {"list_price": "99"}, 1), by=owner(), now=NOW)
    with pytest.raises(BookMoved):
        take_in(before)
    assert Part.objects.get(code="FOUR600-PISTON").list_price == Decimal("99")
    (fault,) = checked(pages).faults
    assert (fault.sheet, fault.line, fault.column, fault.value) == (
        "parts", line_of(pages, "parts", PISTON), "list price", "91.50",
    )  # fmt: skip
    assert fault.reason == (
        "was changed here and meanwhile by somebody else as well: from “92.00” to “99” "
        "(Orla Venn, 2027-02-01)"
    )


def test_an_entry_goes_only_where_nothing_refers_to_it_and_may_come_again() -> None:
    add_entry(kind="suppliers", values=NEW_SUPPLIER, by=owner(), now=NOW)
    refused = checked(changed(without("suppliers", code="main_parts")))
    assert any("no supplier 'main_parts'" in fault.reason for fault in refused.faults)
    gone = checked(changed(without("suppliers", code="yard_2")))
    assert gone.counts == [("suppliers", 0, 0, 1)]
    heard: list[CardChange] = []
    with listening(heard):
        take_in(gone)
    assert not Supplier.objects.filter(code="yard_2").exists()
    assert [(card.code, card.removed, card.changes["name"]) for card in heard] == [
        ("yard_2", True, ("Second yard", None))
    ]
    add_entry(kind="suppliers", values=NEW_SUPPLIER, by=owner(), now=NOW + timedelta(days=1))
    assert Supplier.objects.get(code="yard_2").version == 3


def test_what_a_record_refers_to_stays() -> None:
    engine = cast.engine(cast.customer())
    found = uses("engine_types", [engine.type_code, "nobodys_type"])
    assert set(found) == {engine.type_code}


def test_every_cell_that_cannot_stand_is_told_at_once() -> None:
    pages = changed(
        cell("parts", PISTON, "list price", "dear"),
        cell("parts", PISTON, "quantity", 1.5),
        cell("parts", PISTON, "grade", "golden"),
        cell("offers", OFFER, "cost", None),
        cell("offers", OFFER, "preferred", "perhaps"),
        cell("policies", {"code": "disposal"}, "value", "{half"),
    )
    assert _told(checked(pages)) == {
        ("parts", "list price", "dear", "is text and no number"),
        ("parts", "quantity", "1.5", "is no whole number"),
        ("parts", "grade", "golden", "is not known"),
        ("offers", "cost", "", "is blank"),
        ("offers", "preferred", "perhaps", "is neither yes nor no"),
        ("policies", "value", "{half", "is no number and no JSON"),
    }
    allowed = {fault.column: fault.allowed for fault in checked(pages).faults}
    assert allowed["grade"] == "one of stock, performance"
    assert allowed["list price"] == "a number with at most 2 decimals"


def test_what_a_row_cannot_hold_is_told_by_its_cell() -> None:
    pages = changed(
        cell("parts", PISTON, "list price", -4),
        cell("offers", {"part": "FOUR600-RINGS"}, "cost", -1),
        cell("offers", OFFER, "part", "NOTHING"),
        cell("operations", {"code": "head_off"}, "per piece piece", "valve"),
        with_line("suppliers", code="main_parts", name="X", kind="parts"),
        cell("findings, asks", {"role": "renew"}, "operation", "head_off"),
    )
    told = _told(checked(pages))
    assert ("parts", "list price", "-4.00", "must be at least 0, not -4") in told
    assert ("offers", "cost", "-1.00", "must be at least 0, not -1") in told
    assert ("offers", "part", "NOTHING", "has no line in the sheet “parts”") in told
    assert ("operations", "per piece hours", "", "is missing") in told
    assert any(reason.startswith("stands in line") for *_, reason in told)
    assert any(
        sheet == "findings, asks" and reason.endswith("it would not be kept") for sheet, *_, reason in told
    )


def test_what_does_not_go_together_and_what_is_not_changed_here_is_told() -> None:
    pages = changed(
        cell("policies", {"code": "disposal"}, "currency", "EUR"),
        cell("basis", {"code": "basis"}, "currency", "EUR"),
        cell("parts", PISTON, "code", "FOUR600-PISTONS"),
        cell("offers", OFFER, "part", "FOUR600-PISTONS"),
    )
    reasons = {(sheet, column): reason for sheet, column, _, reason in _told(checked(pages))}
    assert reasons["policies", "the whole line"].startswith("habits are there to read")
    assert reasons["basis", "currency"].startswith("the currency of every price")
    assert reasons["parts", "code"] == "a code never changes, and this entry's was 'FOUR600-PISTON'"
    pages = changed(
        cell("parts", PISTON, "engine type", "five900"), cell("offers", OFFER, "lead slow days", 0.5)
    )
    reasons = {(sheet, column): reason for sheet, column, _, reason in _told(checked(pages))}
    assert reasons["parts", "engine type"] == "no engine type 'five900'"
    assert ("offers", "lead slow days") in reasons


def _told(found: CheckedBook) -> set[tuple[str, str, str, str]]:
    return {(fault.sheet, fault.column, fault.value, fault.reason) for fault in found.faults}
