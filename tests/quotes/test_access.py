"""Who may open what, and what the head of the page shows them."""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.actions.people import give_role
from quotes.queries.people import name_of, roles_of
from tests.cast import PASSWORD, books, builder, desk, owner, person

# Roles are given and read on both in the other files; here is who is let through.
pytestmark = pytest.mark.one_database


@pytest.mark.both_databases
def test_a_person_with_two_roles_has_both(db: None) -> None:
    user = person("desk")
    give_role(user=user, role="books")

    assert roles_of(User.objects.get(pk=user.pk)) == {"desk", "books"}


@pytest.mark.both_databases
def test_a_superuser_is_an_owner(db: None) -> None:
    assert roles_of(User.objects.create_superuser("root", password=PASSWORD)) == {"owner"}


@pytest.mark.both_databases
def test_giving_a_role_twice_changes_nothing(db: None) -> None:
    user = desk()
    give_role(user=user, role="desk")

    assert user.groups.count() == 1


def test_a_person_is_called_by_their_name_or_else_by_their_sign_in(db: None) -> None:
    assert name_of(desk()) == "Dessa Quill"
    assert name_of(User(username="nobody")) == "nobody"


@pytest.mark.parametrize(
    ("who", "settings_shown"), [(owner, True), (desk, False), (builder, False), (books, False)]
)
def test_the_head_names_only_sheets_that_the_person_may_open(
    db: None, client: Client, who: object, settings_shown: bool
) -> None:
    client.force_login(who())  # type: ignore[operator]

    page = client.get(reverse("home")).content.decode()

    assert (f'href="{reverse("settings")}"' in page.split("</nav>")[0]) == settings_shown


def test_every_sheet_that_is_named_opens(db: None, client: Client) -> None:
    for who in (owner, desk, builder, books):
        client.force_login(who())
        names = client.get(reverse("home")).context["site"]["sheets"]
        assert len(names) >= 2
        for sheet in names:
            assert client.get(sheet.url).status_code == 200, (who.__name__, sheet.label)


def test_the_present_sheet_is_marked_once(db: None, client: Client) -> None:
    client.force_login(owner())
    for name in ("home", "quote-list", "settings"):
        page = client.get(reverse(name)).content.decode()
        assert page.split("</nav>")[0].count('aria-current="page"') == 1, name


def test_signing_out_asks_for_a_press_and_then_forgets_the_person(db: None, client: Client) -> None:
    client.force_login(desk())
    assert client.get(reverse("sign-out")).status_code == 405

    client.post(reverse("sign-out"))

    assert client.get(reverse("home")).status_code == 302


def test_an_address_that_is_not_there_says_so(db: None, client: Client) -> None:
    client.force_login(desk())

    response = client.get("/nowhere/")

    assert response.status_code == 404
    assert "No such sheet" in response.content.decode()


@pytest.mark.both_databases
def test_roles_are_read_once_for_each_request(
    db: None, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    user = User.objects.get(pk=desk().pk)

    with django_assert_num_queries(1):
        roles_of(user)
        roles_of(user)
