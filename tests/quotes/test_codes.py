"""One-time codes: good once, and a recovery code in their place."""

from __future__ import annotations

from base64 import b32encode
from importlib import import_module
from io import StringIO

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.core.management import CommandError, call_command
from django_otp.oath import TOTP
from django_otp.plugins.otp_static.models import StaticToken
from django_otp.plugins.otp_totp.models import TOTPDevice
from pytest_django import Settings

from quotes.actions.codes import (
    RECOVERY_CODES,
    CodesSealedOtherwise,
    begin_codes,
    confirm_codes,
    drop_codes,
    take_code,
)
from quotes.checks import codes_can_be_read
from quotes.models import Telephone
from quotes.models.sealed import SealedOtherwise, sealed, unsealed
from quotes.queries.codes import has_codes
from tests.cast import desk, owner

pytestmark = pytest.mark.django_db


def shown(user: User) -> str:
    """What the person's telephone shows now."""
    device = Telephone.objects.get(user=user)
    return f"{TOTP(device.bin_key).token():06}"


def later(user: User) -> None:
    """As if the last code had been long ago and no wrong one tried."""
    TOTPDevice.objects.filter(user=user).update(last_t=-1, throttling_failure_count=0)


def set_up(user: User) -> tuple[str, ...]:
    begin_codes(user=user)
    recovery = confirm_codes(user=user, code=shown(user))
    later(user)
    return recovery


def test_codes_are_asked_for_from_the_first_right_one_on() -> None:
    begin_codes(user=owner())
    assert confirm_codes(user=owner(), code="no code") == ()
    assert not has_codes(owner())

    later(owner())
    assert len(set(confirm_codes(user=owner(), code=shown(owner())))) == RECOVERY_CODES
    assert has_codes(owner())


def test_a_code_is_good_once() -> None:
    set_up(owner())

    assert take_code(user=owner(), code=shown(owner()))
    assert not take_code(user=owner(), code=shown(owner()))


def test_a_recovery_code_is_good_once_and_not_kept_as_it_is() -> None:
    first, second, *_ = set_up(owner())

    assert take_code(user=owner(), code=first.upper().replace("-", " "))
    assert not take_code(user=owner(), code=first)
    assert not StaticToken.objects.filter(token__in=[second, second.replace("-", "")]).exists()


def test_after_a_wrong_code_the_right_one_has_to_wait() -> None:
    set_up(owner())

    right = shown(owner())
    assert not take_code(user=owner(), code=f"{(int(right) + 500_000) % 1_000_000:06}")
    assert not take_code(user=owner(), code=right)


def test_codes_set_up_are_not_set_up_again_over_them() -> None:
    set_up(owner())
    begin_codes(user=owner())

    second = Telephone.objects.get(user=owner(), confirmed=False)
    assert confirm_codes(user=owner(), code=f"{TOTP(second.bin_key).token():06}") == ()


def test_dropped_codes_are_asked_for_no_more() -> None:
    set_up(owner())

    assert drop_codes(user=owner())
    assert not has_codes(owner())
    assert not StaticToken.objects.exists()


def test_the_database_holds_no_secret_that_a_telephone_could_learn() -> None:
    set_up(owner())

    secret, kept = Telephone.objects.get().bin_key, TOTPDevice.objects.get().key
    assert len(secret) == 20
    assert secret.hex() not in kept
    assert b32encode(secret).decode() not in kept
    assert len(kept) <= 80


def test_a_secret_opens_for_its_own_person_only() -> None:
    set_up(owner())

    Telephone.objects.update(user=desk())
    with pytest.raises(SealedOtherwise):
        assert Telephone.objects.get().bin_key


@pytest.mark.parametrize("text", ["", "6d6f", "1:", "1:AAAA", "1:not base64", "2:AAAA"])
def test_what_was_never_sealed_opens_nothing(text: str) -> None:
    with pytest.raises(SealedOtherwise):
        unsealed(text, "one-time codes of 1")


def test_the_same_secret_is_sealed_otherwise_each_time() -> None:
    assert sealed(b"s", "one") != sealed(b"s", "one")


def test_after_the_key_was_lost_words_say_so_and_a_recovery_code_lets_in(settings: Settings) -> None:
    first, *_ = set_up(owner())
    code = shown(owner())
    settings.SECRET_KEY = "another-key-" * 6

    with pytest.raises(CodesSealedOtherwise, match="without its old SECRET_KEY"):
        take_code(user=owner(), code=code)
    assert [told.id for told in codes_can_be_read(databases=["default"])] == ["quotes.W022"]
    with pytest.raises(CommandError, match=f"No key opens those of {owner().username}"):
        call_command("seal_codes", stdout=StringIO())
    assert take_code(user=owner(), code=first)


def test_a_key_of_before_opens_until_all_is_sealed_under_the_new_one(settings: Settings) -> None:
    set_up(owner())
    settings.SECRET_KEY, settings.SECRET_KEY_FALLBACKS = "another-key-" * 6, [settings.SECRET_KEY]
    assert take_code(user=owner(), code=shown(owner()))

    call_command("seal_codes", stdout=StringIO())
    settings.SECRET_KEY_FALLBACKS = []
    later(owner())
    assert take_code(user=owner(), code=shown(owner()))
    assert codes_can_be_read(databases=["default"]) == []


def test_a_secret_of_before_is_sealed_by_the_migration_and_opened_by_its_way_back() -> None:
    codes = import_module("quotes.migrations.0014_codes_sealed")
    TOTPDevice.objects.create(user=owner(), name="codes", key="ab" * 20)

    codes.seal(apps, None)
    codes.seal(apps, None)
    assert Telephone.objects.get().bin_key == bytes.fromhex("ab" * 20)
    codes.unseal(apps, None)
    assert TOTPDevice.objects.get().key == "ab" * 20
