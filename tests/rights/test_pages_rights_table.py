"""Every page of the site against the table of rights, for everybody who may come."""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.test import Client

from quotes.checks import every_page_has_its_right
from quotes.queries.people import ROLES, Role
from quotes.queries.rights import ANYBODY, LINK, RIGHTS, SIGNED_IN, Pages, by_page
from tests.cast import person
from tests.rights.table import FILE, with_table
from tests.rights.walked import THROUGH, answers, pages_left_out, patterns

OPEN = {ANYBODY, LINK}
REFUSED, TO_THE_SIGN_IN = 403, 302


@pytest.fixture(autouse=True)
def without_pages(db: None) -> object:
    with pages_left_out():
        yield


def test_every_page_of_the_site_stands_in_the_table() -> None:
    assert every_page_has_its_right() == []
    assert set(patterns()) == set(by_page())


def test_a_page_that_nobody_was_given_a_right_to_is_named_and_refused(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    table = {name: row for name, row in by_page().items() if name != "margin"}
    monkeypatch.setattr("quotes.checks.by_page", lambda: table)
    monkeypatch.setattr("quotes.queries.rights.by_page", lambda: table)
    client = Client()
    client.force_login(person("owner"))

    assert [(one.id, "margin" in one.msg) for one in every_page_has_its_right()] == [("quotes.E001", True)]
    assert client.get("/books/margin/").status_code == REFUSED


def test_who_is_not_signed_in_is_let_through_to_the_open_pages_only() -> None:
    for name, status in answers(Client(), patterns()).items():
        assert status == (THROUGH if by_page()[name].who in OPEN else TO_THE_SIGN_IN), name


@pytest.mark.parametrize("role", ROLES)
def test_a_role_is_let_through_to_its_own_pages_only(role: Role) -> None:
    client = Client()
    client.force_login(person(role))

    for name, status in answers(client, patterns()).items():
        who = by_page()[name].who
        assert status == (THROUGH if who in OPEN or who == SIGNED_IN or role in who else REFUSED), name


def test_who_has_no_role_comes_to_nothing_of_the_workshops() -> None:
    client = Client()
    client.force_login(User.objects.create_user("nobody"))

    for name, status in answers(client, patterns()).items():
        assert status == (THROUGH if by_page()[name].who in {*OPEN, SIGNED_IN} else REFUSED), name


@pytest.mark.parametrize("role", ROLES)
def test_where_fewer_may_send_than_read_the_others_are_refused(role: Role) -> None:
    client = Client()
    client.force_login(person(role))
    fewer: list[Pages] = [row for row in RIGHTS if row.posts is not None]
    assert fewer

    for row in fewer:
        for name in row.names.split():
            sent = client.post(patterns()[name]).status_code
            assert sent == (THROUGH if role in (row.posts or ()) else REFUSED), name


def test_the_table_for_developers_says_the_same() -> None:
    text = FILE.read_text(encoding="utf-8")

    assert with_table(text) == text, "make rights-table writes it again"
