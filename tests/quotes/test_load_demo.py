"""Loading a demo: who may sign in, and where it is refused."""

from __future__ import annotations

from pathlib import Path

import pytest
from django.conf import settings
from django.contrib.auth import authenticate
from django.core.management import CommandError
from django.http import HttpRequest
from django.utils import timezone
from pytest_django import Settings

from quotes.actions.demo.writing import OtherWorkshop, write_demo
from quotes.calc.demo.workshop import Style
from quotes.imports.demo.file import read_demo
from quotes.management.commands.load_demo import PASSWORD, demo_password
from quotes.models import Customer, Workshop
from tests.quotes.cast import workshop

pytestmark = pytest.mark.django_db


def write(style: Style = "sales-tax", password: str = PASSWORD) -> None:
    """The demo without quotes and calls, which take seconds to work out."""
    demo = read_demo(Path(settings.BASE_DIR) / "fixtures" / "demo", style)
    demo = demo.model_copy(update={"quotes": (), "enquiries": ()})
    write_demo(demo=demo, style=style, password=password, now=timezone.now())


@pytest.mark.parametrize("name", ["desk", "builder", "books", "owner"])
def test_each_of_its_four_people_can_sign_in(name: str) -> None:
    write()

    assert authenticate(HttpRequest(), username=name, password=PASSWORD)


def test_a_new_password_takes_the_place_of_the_old_one() -> None:
    write()

    write(password="something-of-our-own")

    assert authenticate(HttpRequest(), username="desk", password="something-of-our-own")
    assert not authenticate(HttpRequest(), username="desk", password=PASSWORD)


def test_the_password_can_be_set_from_outside(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DEMO_PASSWORD", "something-of-our-own")

    assert demo_password() == "something-of-our-own"


def test_the_known_password_is_refused_where_others_can_reach_the_site(settings: Settings) -> None:
    settings.ALLOWED_HOSTS = ["localhost", "quotes.example"]

    with pytest.raises(CommandError, match=r"quotes\.example.*DEMO_PASSWORD"):
        demo_password()


def test_the_other_demo_is_not_mixed_in() -> None:
    write()

    with pytest.raises(OtherWorkshop, match="holds the sales-tax demo already"):
        write("value-added-tax")


def test_a_workshop_of_ones_own_is_left_alone() -> None:
    workshop(version=3, name="Our Own Works")

    with pytest.raises(OtherWorkshop, match="Our Own Works"):
        write()

    assert not Customer.objects.exists()


def test_settings_that_were_changed_since_stay_changed() -> None:
    write()
    Workshop.objects.update(name="Tallow Yard and Daughter")

    write()

    assert Workshop.objects.get().name == "Tallow Yard and Daughter"
