"""Days go in the order of the numbers: a clock set back issues nothing unless the owner says why."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from quotes.actions.books.refused_months import EarlierDay, EarlierDayIsTheOwners
from quotes.models import Acceptance, Counter, InvoiceDraft
from tests.books import cast
from tests.books.cast import LATER, NOW
from tests.cast import owner

pytestmark = pytest.mark.django_db


@pytest.fixture
def behind(build: Acceptance) -> InvoiceDraft:
    """A draft, where the last document of its series bears a day three weeks ahead of the clock."""
    cast.invoiced(build, now=LATER)
    return cast.drafted(cast.build("H4-20418"))


def test_an_earlier_day_is_refused_with_both_days_and_uses_no_number(behind: InvoiceDraft) -> None:
    said = r"it is 25 November 2026, but I-2026-0001, .* bears 15 December 2026\. Nothing was issued"

    with pytest.raises(EarlierDay, match=said):
        cast.issue(behind)

    assert Counter.objects.get(kind="I").value == 1


def test_the_owner_lets_it_stand_in_writing_and_the_next_one_follows(behind: InvoiceDraft) -> None:
    made = cast.issue(behind, by=owner(), earlier_because=" The clock was three weeks ahead ")

    assert (made.number, made.issued_on) == ("I-2026-0002", NOW.date())
    assert made.earlier_because == "The clock was three weeks ahead"
    assert cast.invoiced(cast.build("H4-20419")).earlier_because == ""


@pytest.mark.parametrize(("because", "refused"), [("It is fine", EarlierDayIsTheOwners), ("  ", EarlierDay)])
def test_nobody_else_lets_it_stand(behind: InvoiceDraft, because: str, refused: type[Exception]) -> None:
    with pytest.raises(refused):
        cast.issue(behind, earlier_because=because)


@pytest.mark.parametrize("other", [cast.deposited, cast.credited])
def test_each_kind_of_document_has_an_order_of_its_own(
    build: Acceptance, other: Callable[..., object]
) -> None:
    first = cast.invoiced(build, now=LATER)

    other(first if other is cast.credited else cast.build("H4-20418"))
