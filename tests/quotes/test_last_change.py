"""Who changed a record last, and that the second of two people is told."""

from __future__ import annotations

from dataclasses import replace

import pytest
from django.db import connection

from quotes.actions.audit.who import a_person, acting_as
from quotes.actions.customers import CustomerDetails, create_customer, update_customer
from quotes.actions.refused import StaleDraft
from quotes.database.before_commit import write_waiting
from tests.cast import desk
from tests.quotes.cast import NOW

LIND = CustomerDetails(name="Marta Lind", telephone="000 117")


def test_the_second_of_two_people_is_told_whose_change_he_has_not_seen(db: None) -> None:
    marta = create_customer(details=LIND, now=NOW)
    with acting_as(lambda: a_person(desk())):
        update_customer(customer=marta, details=replace(LIND, telephone="000 118"), expected_version=1)
    write_waiting(connection)

    with pytest.raises(StaleDraft, match=r"^Dessa Quill has changed this") as told:
        update_customer(customer=marta, details=replace(LIND, telephone="000 119"), expected_version=1)

    assert [(one.before, one.after) for one in told.value.changes] == [("000 118", "000 119")]
