"""What the site says to browsers and crawlers before anyone has signed in."""

from __future__ import annotations

import pytest
from django.conf import settings
from django.test import Client


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("address", "holds"), [("/favicon.ico", b"\x00\x00\x01\x00"), ("/robots.txt", b"Disallow: /")]
)
def test_the_root_files_need_no_sign_in(client: Client, address: str, holds: bytes) -> None:
    response = client.get(address)

    assert response.status_code == 200
    assert holds in b"".join(response.streaming_content)  # type: ignore[attr-defined]


@pytest.mark.django_db
def test_a_page_allows_nothing_from_elsewhere_and_nothing_inline(client: Client) -> None:
    policy = client.get("/sign-in/").headers["Content-Security-Policy"]

    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "http" not in policy


@pytest.mark.django_db
def test_the_address_of_a_page_is_not_told_to_other_sites(client: Client) -> None:
    assert client.get("/sign-in/").headers["Referrer-Policy"] == "same-origin"


@pytest.mark.django_db
def test_every_page_asks_for_a_sign_in_unless_it_says_otherwise(client: Client) -> None:
    response = client.get("/")

    assert response.status_code == 302
    assert response.headers["Location"].startswith("/sign-in/")


def test_passwords_are_kept_with_argon2_outside_the_tests() -> None:
    from quotes import settings as as_shipped

    assert as_shipped.PASSWORD_HASHERS == ["django.contrib.auth.hashers.Argon2PasswordHasher"]
    assert settings.PASSWORD_HASHERS != as_shipped.PASSWORD_HASHERS
