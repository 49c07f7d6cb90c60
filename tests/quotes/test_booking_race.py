"""Two desks at one moment: the last hours of a week go to one of them."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection

from quotes.actions.booking import WeekFull
from quotes.models import Booking, Counter, Enquiry
from tests.quotes import cast, enquiry_cast

DESKS = 4


@pytest.mark.django_db(transaction=True)
def test_desks_that_book_one_week_at_once_do_not_promise_it_twice() -> None:
    cast.workshop(sellable_hours_a_week=40)
    enquiries = enquiry_cast.many(DESKS)
    together = Barrier(DESKS)

    def book(row: Enquiry) -> bool:
        together.wait()
        try:
            enquiry_cast.booking(row, tier="full")
        except WeekFull:
            return False
        finally:
            connection.close()
        return True

    with ThreadPoolExecutor(DESKS) as pool:
        booked = list(pool.map(book, enquiries))

    assert booked.count(True) == Booking.objects.count() == 1
    assert Counter.objects.get(kind="B").value == 1
