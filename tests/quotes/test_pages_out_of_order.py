"""Disk full, database gone, a fault of the program: the page says so, and hands back what was typed."""

from __future__ import annotations

import errno
import sqlite3
from html import unescape
from typing import Any

import psycopg
import pytest
from django.db import OperationalError, connection
from django.test import Client
from django.urls import reverse

from quotes.models import Customer
from quotes.views.every_request.out_of_order import FULL_DISK, trouble_of
from quotes.views.records import customers as customer_pages
from tests.cast import desk

pytestmark = pytest.mark.django_db
TYPED = {"name": 'Marta "Ember" Lind', "address": "4 Quay Lane\nHarbourton", "csrfmiddlewaretoken": "t0ken"}


def by_sqlite(code: int) -> OperationalError:
    refused, told = sqlite3.OperationalError("as SQLite says it"), OperationalError("the same to Django")
    refused.sqlite_errorcode = code
    told.__cause__ = refused
    return told


def by_postgresql(kind: type[psycopg.Error]) -> OperationalError:
    told = OperationalError("the same to Django")
    told.__cause__ = kind("as PostgreSQL says it")
    return told


TROUBLES = [
    (by_sqlite(sqlite3.SQLITE_FULL), 503, "is full"),
    (by_postgresql(psycopg.errors.DiskFull), 503, "is full"),
    (OSError(errno.ENOSPC, "No space left on device"), 503, "is full"),
    (by_sqlite(sqlite3.SQLITE_CANTOPEN), 503, "does not answer"),
    (by_postgresql(psycopg.errors.AdminShutdown), 503, "does not answer"),
    (OperationalError("connection refused"), 503, "does not answer"),
    (by_sqlite(sqlite3.SQLITE_BUSY), 503, "held up this page"),
    (by_sqlite(sqlite3.SQLITE_READONLY), 503, "can be read but not written"),
    (PermissionError(errno.EACCES, "Permission denied"), 503, "can be read but not written"),
    (ArithmeticError("a sum that no one thought of"), 500, "a fault of the program"),
]


@pytest.fixture
def at_the_desk() -> Client:
    client = Client(raise_request_exception=False)
    client.force_login(desk())
    return client


def sent(client: Client, trouble: Exception, monkeypatch: pytest.MonkeyPatch) -> Any:
    """The new customer, whose keeping ends in that trouble."""

    def failing(**_: object) -> None:
        raise trouble

    with monkeypatch.context() as patch:
        patch.setattr(customer_pages, "create_customer", failing)
        return client.post(reverse("customer-new"), TYPED)


def test_each_trouble_has_its_own_words(
    at_the_desk: Client, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    for trouble, status, words in TROUBLES:
        answer = sent(at_the_desk, trouble, monkeypatch)
        assert (answer.status_code, words in answer.content.decode()) == (status, True), trouble
        assert answer.headers.get("Retry-After") == ("30" if status == 503 else None)


def test_all_that_was_typed_comes_back_to_be_sent_again(
    at_the_desk: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = unescape(sent(at_the_desk, OperationalError("gone"), monkeypatch).content.decode())

    assert f'<form method="post" action="{reverse("customer-new")}">' in page
    for name, value in TYPED.items():
        assert f'<input type="hidden" name="{name}" value="{value}">' in page
    assert at_the_desk.post(reverse("customer-new"), TYPED).status_code == 302
    assert Customer.objects.get().address == TYPED["address"]


def test_a_password_is_not_handed_back(at_the_desk: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(TYPED, "password", "a-long-test-password")

    page = sent(at_the_desk, OperationalError("gone"), monkeypatch).content.decode()

    assert "a-long-test-password" not in page
    assert "the form is still filled in there" in page


def test_a_database_that_may_not_grow_is_a_full_disk() -> None:
    with connection.cursor() as cursor:
        (most,) = cursor.execute("PRAGMA max_page_count").fetchone()
        cursor.execute("PRAGMA max_page_count = 1")
        with pytest.raises(OperationalError) as told:
            cursor.execute("CREATE TABLE more AS SELECT zeroblob(4000000) AS content")
        cursor.execute(f"PRAGMA max_page_count = {most}")

    assert trouble_of(told.value) == FULL_DISK


def test_without_a_database_even_the_sign_in_page_says_what_is_the_matter(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def gone() -> None:
        raise OperationalError("connection refused")

    client = Client(raise_request_exception=False)
    client.cookies["sessionid"] = "a" * 32
    with monkeypatch.context() as patch:
        patch.setattr(connection, "cursor", gone)
        answer = client.get(reverse("customer-list"))

    assert (answer.status_code, "does not answer" in answer.content.decode()) == (503, True)
