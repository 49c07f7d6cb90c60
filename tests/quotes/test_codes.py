"""One-time codes: good once, and a recovery code in their place."""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django_otp.oath import TOTP
from django_otp.plugins.otp_static.models import StaticToken
from django_otp.plugins.otp_totp.models import TOTPDevice

from quotes.actions.codes import RECOVERY_CODES, begin_codes, confirm_codes, drop_codes, take_code
from quotes.queries.codes import has_codes
from tests.cast import owner

pytestmark = pytest.mark.django_db


def shown(user: User) -> str:
    """What the person's telephone shows now."""
    device = TOTPDevice.objects.get(user=user)
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

    second = TOTPDevice.objects.get(user=owner(), confirmed=False)
    assert confirm_codes(user=owner(), code=f"{TOTP(second.bin_key).token():06}") == ()


def test_dropped_codes_are_asked_for_no_more() -> None:
    set_up(owner())

    assert drop_codes(user=owner())
    assert not has_codes(owner())
    assert not StaticToken.objects.exists()
