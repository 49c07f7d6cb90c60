"""What tests begin with is the same whether it was made or written again, and is made after anything else."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.apps import apps
from django.db import connection, transaction

from quotes.models import Acceptance
from tests.books import cast
from tests.written_again import begin_test

pytestmark = pytest.mark.django_db


class TakenBack(Exception):
    """So that what was written is gone, as at the end of a test."""


def in_a_test(make: Callable[[], Any]) -> Any:
    """What it comes to in a test of its own."""
    begin_test(taken_back=True)
    came: list[Any] = []
    try:
        with transaction.atomic():
            came.append(make())
            raise TakenBack
    except TakenBack:
        return came[0]


def everything() -> dict[str, list[Any]]:
    """Every row of every table."""
    return {
        model._meta.db_table: list(model._default_manager.order_by("pk").values_list())
        for model in apps.get_models()
    }


def test_all_rows_are_the_same_and_what_waits_for_the_commit_too() -> None:
    def whole() -> tuple[Any, ...]:
        invoice = cast.invoiced(cast.build())
        waiting = [repr(each[1]) for each in connection.run_on_commit]
        return everything(), waiting, invoice.number, invoice.gross

    assert in_a_test(whole) == in_a_test(whole)


def test_after_a_change_it_is_made_of_what_stands_then() -> None:
    def at(rate: str) -> Any:
        build = cast.build()
        if rate != "20":
            cast.change_rate(rate)
        return cast.invoiced(build).sheet["sums"]["tax"]

    plain = in_a_test(lambda: at("20"))
    assert in_a_test(lambda: at("7")) != plain
    assert in_a_test(lambda: at("20")) == plain


def test_nothing_of_it_is_kept_once_a_statement_was_taken_back() -> None:
    def at_seven() -> Acceptance:
        cast.vat_shop("7")
        return cast.build()

    def at_twenty_after_all() -> Acceptance:
        try:
            with transaction.atomic():
                cast.vat_shop("7")
                raise TakenBack
        except TakenBack:
            return cast.build()

    assert in_a_test(at_twenty_after_all).gross == cast.GROSS
    assert in_a_test(at_seven).gross < cast.GROSS
