"""The list of payments: where there are none, sums that went back, narrowed, sorted, its queries."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.books.paying_back import refund
from quotes.actions.books.payments import take_payment
from quotes.models import Acceptance, Customer, OpenItem, Payment
from tests.books import cast
from tests.books.page_forms import text_of
from tests.cast import desk


def paid(amount: str, key: str, method: str = "cash") -> Payment:
    """By the one customer, today."""
    return take_payment(
        customer=Customer.objects.get(),
        on=timezone.localdate(),
        amount=Decimal(amount),
        method=method,
        key=key,
        by=desk(),
        now=timezone.now(),
    )


def listed(client: Client, **asked: str) -> Any:
    return client.get(reverse("payment-list"), asked)


def test_an_empty_list_says_what_to_do_first(at_desk: Client) -> None:
    cast.vat_shop()

    assert "No payments yet." in text_of(listed(at_desk))


def test_what_went_back_stands_below_nought_in_the_list(at_desk: Client, build: Acceptance) -> None:
    cast.invoiced(build)
    too_much = OpenItem.objects.get(payment=paid("3200", "cash"))
    refund(
        customer=too_much.customer,
        on=timezone.localdate(),
        amount=Decimal("13.52"),
        method="cash",
        key="back",
        by=desk(),
        now=timezone.now(),
        from_item=too_much,
    )

    lines = listed(at_desk, **{"as": "csv"}).content.decode("utf-8-sig").splitlines()

    assert any("paid back" in line and "-13.52" in line for line in lines)


def test_the_list_is_narrowed(at_desk: Client, build: Acceptance) -> None:
    paid("10", "cash")

    for asked, count in (
        ({"q": "marel"}, 1),
        ({"q": "nobody"}, 0),
        ({"kind": "refund"}, 0),
        ({"method": "cash"}, 1),
        ({"method": "card"}, 0),
    ):
        assert listed(at_desk, **asked).context["shown"] == count, asked


def test_the_list_is_sorted_by_any_column(at_desk: Client, build: Acceptance) -> None:
    paid("10", "cash")
    paid("20", "card", method="card")

    for column in ("number", "kind", "customer", "on", "method", "build", "amount"):
        for way in (column, f"-{column}"):
            assert listed(at_desk, sort=way).context["shown"] == 2, way


@pytest.mark.parametrize("count", [1, 5])
def test_one_payment_and_five_cost_the_same_queries(
    at_desk: Client, build: Acceptance, count: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for index in range(count):
        paid("10", f"key {index}")

    with django_assert_num_queries(7):
        listed(at_desk)
