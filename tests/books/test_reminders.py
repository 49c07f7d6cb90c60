"""Payment reminders: what is claimed stands for good, and so does when, how and where it was sent."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.utils import timezone

from quotes.actions.books import reminders
from quotes.actions.books.reminders import make_reminder, note_sent
from quotes.models import Acceptance, Invoice, IssuedForGood, OpenItem, PaymentReminder, ReminderSent
from quotes.queries.books.reminders import claimable, paper_of, reminders_of
from tests.books import cast
from tests.books.ledger_cast import item_of, marel, paid
from tests.cast import books
from tests.quotes.cast import NOW

LATE = NOW + timedelta(days=40)
TODAY = timezone.localdate(LATE)


@pytest.fixture(autouse=True)
def plain_paper(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reminders, "drawn_reminder", lambda paper: f"%PDF {paper.number}".encode())


@pytest.fixture
def late(build: Acceptance) -> Invoice:
    return cast.invoiced(build)


def reminded(*items: OpenItem, **change: Any) -> PaymentReminder:
    told: dict[str, Any] = {
        "pay_by": TODAY + timedelta(days=10),
        "words": "Please pay.",
        "key": uuid4(),
        "now": LATE,
    }
    chosen = [item.pk for item in items]
    return make_reminder(customer=marel(), items=chosen, by=books(), **(told | change))


def sent(reminder: PaymentReminder, **change: Any) -> ReminderSent:
    told: dict[str, Any] = {
        "on": TODAY,
        "how": "letter",
        "to": "4 Sorrel Yard",
        "proof": "",
        "key": uuid4(),
        "now": LATE,
    }
    return note_sent(reminder=reminder, by=books(), **(told | change))


def test_it_claims_what_is_open_that_day_whatever_is_paid_later(late: Invoice) -> None:
    paid("1000", now=LATE, on=TODAY)
    reminder = reminded(item_of(late))
    paid("2000", now=LATE, on=TODAY)

    (claim,) = paper_of(PaymentReminder.objects.get()).claims
    assert (reminder.number, reminder.amount) == ("N-2027-0001", Decimal("2186.48"))
    assert (claim.number, claim.amount, claim.settled, claim.open) == (
        late.number,
        Decimal("3186.48"),
        Decimal(1000),
        Decimal("2186.48"),
    )
    assert claim.due_on == late.due_on


def test_only_one_that_was_sent_counts_as_asked_before(late: Invoice) -> None:
    stayed = reminded(item_of(late))
    second = reminded(item_of(late))
    sent(second)
    third = reminded(item_of(late))

    assert [paper_of(each).time for each in (stayed, second, third)] == [1, 1, 2]
    sent_on = [each.sent_on for each in reminders_of(late)]  # type: ignore[attr-defined]
    assert sent_on == [None, TODAY, None]


def test_pressed_twice_it_is_made_once_and_sent_once(late: Invoice) -> None:
    key = uuid4()
    first, again = (reminded(item_of(late), key=key) for _press in range(2))
    assert first == again

    assert sent(first, key=key) == sent(first, key=key)
    assert (PaymentReminder.objects.count(), ReminderSent.objects.count()) == (1, 1)


def test_what_is_not_overdue_any_more_is_not_claimed(late: Invoice) -> None:
    paid("3186.48", now=LATE, on=TODAY)

    with pytest.raises(ValidationError, match="not all overdue any more"):
        reminded(item_of(late))
    assert not claimable(marel(), TODAY)


def test_a_day_of_payment_that_is_past_is_refused(late: Invoice) -> None:
    with pytest.raises(ValidationError, match="is past"):
        reminded(item_of(late), pay_by=TODAY - timedelta(days=1))


@pytest.mark.parametrize("day", [TODAY - timedelta(days=1), TODAY + timedelta(days=1)])
def test_it_was_sent_between_its_own_day_and_today(late: Invoice, day: date) -> None:
    with pytest.raises(ValidationError, match="is not between"):
        sent(reminded(item_of(late)), on=day)


def test_neither_it_nor_its_sending_changes(late: Invoice) -> None:
    reminder = reminded(item_of(late))
    sending = sent(reminder)

    for row in (reminder, sending):
        with pytest.raises(IssuedForGood):
            row.save()
        with pytest.raises(IssuedForGood):
            row.delete()
