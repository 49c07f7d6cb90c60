"""`verify` holds what is listed against what the lists in force said of it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest

from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.taking import bring_due_into_force, take_list
from catalogue.actions.price_list.taking_held import take_held
from catalogue.actions.price_list.undoing import undo_list
from catalogue.models import ListedPart, ListedPrice, PriceList
from quotes.queries.record.listed import listed_parts
from tests.cast import owner
from tests.prices.cast import NOW, SPRING, TODAY, handed_in, listed, read, taken

pytestmark = pytest.mark.django_db
AUTUMN = read(listed("A-1", "11"), listed("A-2", "39", 3), listed("B-9", "5", 4, list_price=None))


def told() -> list[str]:
    return [str(fault) for found in listed_parts() for fault in found]


def test_lists_taken_in_agreed_to_later_and_undone_leave_it_sound() -> None:
    taken(SPRING)
    row = taken(AUTUMN, "autumn.csv")
    take_held(pk=row.pk, given=AUTUMN, keys=None, by=owner(), now=NOW)
    assert (len([*listed_parts()]), told()) == (4, [])
    undo_list(pk=row.pk, by=owner(), now=NOW)
    assert (len([*listed_parts()]), told()) == (3, [])


def test_a_list_that_waited_for_its_day_is_the_last() -> None:
    due, later = handed_in("due.csv"), TODAY + timedelta(days=9)
    check_list(pk=due.pk, given=AUTUMN, on=later, now=NOW)
    take_list(pk=due.pk, given=AUTUMN, by=owner(), on=TODAY, now=NOW)
    taken(SPRING)
    bring_due_into_force(pk=due.pk, given=AUTUMN, now=NOW + timedelta(days=9))
    assert told() == []
    assert PriceList.objects.in_force()[0].pk == due.pk


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda: ListedPart.objects.filter(number="A-1").update(own_cost=12), "own_cost: expected 11"),
        (lambda: ListedPart.objects.filter(number="A-1").update(list_price=12), "list_price: expected None"),
        (lambda: ListedPart.objects.filter(number="A-3").update(gone=False), "gone: expected True"),
        (lambda: ListedPrice.objects.filter(number="B-9").delete(), "B-9 of main_parts: a list in force"),
        (lambda: ListedPart.objects.filter(number="B-9").delete(), "B-9 of main_parts: listed"),
        (
            lambda: ListedPart.objects.filter(number="A-1").update(
                price_list=PriceList.objects.get(name="spring.csv"), own_cost=10, cost=10
            ),
            "the list that says so",
        ),
    ],
)
def test_a_row_that_was_altered_is_found(change: Callable[[], object], said: str) -> None:
    taken(SPRING)
    taken(AUTUMN, "autumn.csv")
    change()
    assert any(said in one for one in told())
