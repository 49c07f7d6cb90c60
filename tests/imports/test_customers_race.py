"""Two people who take in one list at one moment: it is in the records once."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection

from quotes.actions.import_customers import FileMismatch, add_customers
from quotes.imports.load_customers import check_customers
from quotes.models import Customer
from tests.imports.customer_files import as_file, customer_only
from tests.quotes.cast import NOW, ON

AT_ONCE = 4
CONTENT = as_file(customer_only("Dov Marlish"), customer_only("Ines Karrow"))


@pytest.mark.django_db(transaction=True)
def test_one_list_taken_in_by_several_at_once_is_added_once() -> None:
    checked = check_customers(CONTENT, ON)
    together = Barrier(AT_ONCE)

    def take_in(_: int) -> bool:
        together.wait()
        try:
            add_customers(given=checked.file.customers, expected=checked.plan, now=NOW)
        except FileMismatch:
            return False
        finally:
            connection.close()
        return True

    with ThreadPoolExecutor(AT_ONCE) as pool:
        done = list(pool.map(take_in, range(AT_ONCE)))

    assert done.count(True) == 1
    assert Customer.objects.count() == 2
