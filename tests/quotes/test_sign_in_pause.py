"""Wrong passwords are counted for each name and address, and the owner may lift the pause."""

from __future__ import annotations

import io
from typing import Any

import pytest
from django.core.management import call_command
from django.test import Client
from django.urls import reverse

from tests.cast import PASSWORD, desk

TRIES = 5
NEAR, FAR = "192.0.2.7", "198.51.100.9"


def try_to_sign_in(name: str, password: str, address: str = NEAR, **headers: str) -> Any:
    typed = {"username": name, "password": password}
    return Client().post(reverse("sign-in"), typed, REMOTE_ADDR=address, headers=headers)


def try_till_paused(name: str, address: str = NEAR) -> Any:
    for _ in range(TRIES - 1):
        assert try_to_sign_in(name, "wrong", address).status_code == 200
    return try_to_sign_in(name, "wrong", address)


@pytest.mark.django_db
def test_five_wrong_passwords_pause_a_name_at_one_address_until_lifted() -> None:
    desk()

    assert try_till_paused("desk").status_code == 429
    assert try_to_sign_in("desk", PASSWORD).status_code == 429
    assert try_to_sign_in("desk", PASSWORD, FAR).status_code == 302
    assert try_to_sign_in("desk", PASSWORD).status_code == 429
    call_command("lift_pause", "desk", stdout=io.StringIO())
    assert try_to_sign_in("desk", PASSWORD).status_code == 302
