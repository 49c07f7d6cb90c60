"""The page after too many wrong passwords."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from axes.models import AccessAttempt
from django.test import override_settings
from django.utils import timezone

from tests.cast import PASSWORD, desk
from tests.quotes.test_sign_in_pause import FAR, NEAR, TRIES, try_till_paused, try_to_sign_in

pytestmark = pytest.mark.django_db


def words(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html.partition("<main")[2]).split())


def test_the_pause_says_when_to_try_again_and_not_whether_the_name_exists() -> None:
    desk()
    known, unknown = try_till_paused("desk"), try_till_paused("nobody")

    assert "in 15 minutes" in words(known.content.decode())
    assert "desk" not in words(known.content.decode())
    assert words(known.content.decode()) == words(unknown.content.decode())
    assert 14 * 60 < int(known["Retry-After"]) <= 15 * 60


def test_what_is_tried_in_the_pause_does_not_prolong_it() -> None:
    desk()
    try_till_paused("desk")
    AccessAttempt.objects.update(attempt_time=timezone.now() - timedelta(minutes=10))

    assert "in 5 minutes" in words(try_to_sign_in("desk", "wrong").content.decode())
    AccessAttempt.objects.update(attempt_time=timezone.now() - timedelta(minutes=15))
    assert try_to_sign_in("desk", PASSWORD).status_code == 302


def test_signing_in_forgets_what_was_mistyped_before() -> None:
    desk()
    for _ in range(TRIES - 1):
        try_to_sign_in("desk", "wrong")

    assert try_to_sign_in("desk", PASSWORD).status_code == 302
    assert not AccessAttempt.objects.exists()


def test_no_password_is_kept_of_a_wrong_try() -> None:
    try_to_sign_in("desk", "my secret at the bank")

    assert "bank" not in AccessAttempt.objects.get().post_data


def test_a_visitor_names_his_own_address_only_where_a_proxy_of_ours_adds_to_it() -> None:
    desk()
    for number in range(TRIES):
        try_to_sign_in("desk", "wrong", NEAR, **{"X-Forwarded-For": f"203.0.113.{number}"})
    assert try_to_sign_in("desk", PASSWORD, NEAR).status_code == 429

    with override_settings(PROXIES=1):
        far, near = ({"X-Forwarded-For": chain} for chain in (f"{NEAR}, {FAR}", f"{FAR}, {NEAR}"))
        assert try_to_sign_in("desk", PASSWORD, NEAR, **far).status_code == 302
        assert try_to_sign_in("desk", PASSWORD, "10.0.0.1", **near).status_code == 429
